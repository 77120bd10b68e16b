package org.faultwright.pack.reader;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.ToolId;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Span;

/** Puts together what the sections of a pack and its fragments say. */
final class Assembly {

  private final Scope scope;
  private final List<Fields> fragments = new ArrayList<>();

  Assembly(Scope scope) {
    this.scope = scope;
  }

  /** Adds a fragment. */
  void add(Fields fragment) {
    fragments.add(fragment);
  }

  /** The pack; empty when it lacks what every pack must have, after that has been reported. */
  Optional<Pack> pack(Fields f) {
    PackDraft draft = new PackDraft(f.get(PackKeys.PACK).orElse(new PackId("unknown", "unknown")));
    fragments.forEach(fragment -> addSections(fragment, draft));
    addSections(f, draft);
    f.get(PackKeys.BOARDS).ifPresent(draft.boards::addAll);
    f.get(PackKeys.RENAMED).ifPresent(draft.renamed::putAll);
    group(draft);
    new Shares(draft, scope).settle();
    if (!new Cycles(draft, scope).none() || !f.complete()) {
      return Optional.empty();
    }
    draft.version = f.need(PackKeys.VERSION);
    draft.title = f.need(PackKeys.TITLE);
    draft.invented = f.need(PackKeys.BASIS).filter(Basis.Invented.class::isInstance).isPresent();
    return Optional.of(draft.build());
  }

  private static void addSections(Fields f, PackDraft draft) {
    f.get(PackKeys.SOURCES).ifPresent(all -> all.forEach(draft::source));
    f.get(PackKeys.SWITCHES).ifPresent(all -> all.forEach(draft::benchSwitch));
    f.get(PackKeys.INSTRUMENTS).ifPresent(all -> all.forEach(draft::instrument));
    f.get(PackKeys.TOOLS)
        .ifPresent(all -> all.forEach(w -> draft.tools.put(new ToolId(w.id()), w.words())));
    f.get(PackKeys.CONSENTS)
        .ifPresent(all -> all.forEach(w -> draft.consents.put(new ConsentId(w.id()), w.words())));
    f.get(PackKeys.ACTIVITIES)
        .ifPresent(
            all -> all.forEach(w -> draft.activities.put(new ActivityId(w.id()), w.words())));
    f.get(PackKeys.CAUTIONS).ifPresent(all -> all.forEach(draft::caution));
    f.get(PackKeys.RAILS).ifPresent(all -> all.forEach(draft::rail));
    f.get(PackKeys.PARTS).ifPresent(all -> all.forEach(draft::part));
    f.get(PackKeys.COMPLAINTS).ifPresent(all -> all.forEach(draft::complaint));
    f.get(PackKeys.HISTORY).ifPresent(all -> all.forEach(draft::history));
    f.get(PackKeys.SYMPTOMS).ifPresent(all -> all.forEach(draft::symptom));
    f.get(PackKeys.CAUSES).ifPresent(all -> all.forEach(draft::cause));
    f.get(PackKeys.ONE_OF).ifPresent(all -> all.forEach(draft::group));
    f.get(PackKeys.EVENTS).ifPresent(all -> all.forEach(draft::event));
    f.get(PackKeys.STEPS).ifPresent(all -> all.forEach(draft::step));
    f.get(PackKeys.HOLDS).ifPresent(all -> all.forEach(draft::hold));
    f.get(PackKeys.CLASHES).ifPresent(draft.clashes::addAll);
  }

  /** Tells each cause its group; a cause can be in one only. */
  private void group(PackDraft draft) {
    Map<CauseId, GroupId> groupOf = new LinkedHashMap<>();
    for (OneOf group : draft.groups.values()) {
      for (CauseId member : group.members()) {
        GroupId earlier = groupOf.putIfAbsent(member, group.id());
        if (earlier != null) {
          scope.error(
              FormatRule.LISTED_TWICE,
              memberAt(group.id(), member),
              "cause '" + member + "' is in group '" + earlier + "' already",
              "a cause can be in one group only");
        }
      }
    }
    draft.causes.replaceAll(
        (id, c) ->
            new Cause(
                id,
                c.title(),
                c.kind(),
                c.likelihood(),
                Optional.ofNullable(groupOf.get(id)),
                c.after(),
                c.follows(),
                c.shows(),
                c.boards(),
                c.sendOn()));
  }

  private Span memberAt(GroupId group, CauseId member) {
    return scope
        .names()
        .definition(Kind.GROUP, group.value())
        .orElseThrow()
        .block()
        .flatMap(b -> b.value("members"))
        .flatMap(
            list ->
                ((YamlList) list)
                    .items().stream()
                        .filter(n -> n instanceof YamlScalar s && s.text().equals(member.value()))
                        .findFirst())
        .orElseThrow()
        .at();
  }
}
