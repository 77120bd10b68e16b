package org.faultwright.pack.format;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Id;
import org.faultwright.pack.Pack;
import org.faultwright.pack.yaml.YamlNode.Entry;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Span;

/**
 * The ids that a pack and its fragments define, known before anything is read in full, so that a
 * mistake in one definition does not make every reference to it a mistake as well.
 */
public final class Names {

  /**
   * A definition.
   *
   * @param at where the id stands
   * @param entry the definition as written; empty where the pack does not come from a file
   */
  public record Defined(Optional<Span> at, Optional<Entry> entry) {

    /** The definition as written, where it is a block. */
    public Optional<YamlMap> block() {
      return entry.map(Entry::value).filter(YamlMap.class::isInstance).map(YamlMap.class::cast);
    }
  }

  private final Map<Kind, Map<String, Defined>> defined = new EnumMap<>(Kind.class);
  private final Map<String, String> renamed = new LinkedHashMap<>();

  /** The ids of a pack. */
  public static Names of(Pack pack) {
    Names names = new Names();
    names.addAll(Kind.CAUSE, pack.causes().keySet());
    names.addAll(Kind.EVENT, pack.events().keySet());
    names.addAll(Kind.COMPLAINT, pack.complaints().keySet());
    names.addAll(Kind.HISTORY, pack.histories().keySet());
    names.addAll(Kind.SYMPTOM, pack.symptoms().keySet());
    names.addAll(Kind.STEP, pack.steps().keySet());
    names.addAll(Kind.PART, pack.parts().keySet());
    names.addAll(Kind.HOLD, pack.holds().keySet());
    names.addAll(Kind.BOARD, pack.boards());
    names.addAll(Kind.INSTRUMENT, pack.instruments().keySet());
    names.addAll(Kind.TOOL, pack.tools().keySet());
    names.addAll(Kind.CONSENT, pack.consents().keySet());
    names.addAll(Kind.CONSENT, Conventions.ASKED_ANYWHERE.keySet());
    pack.switches()
        .values()
        .forEach(s -> names.addAll(Kind.BENCH_STATE, List.of(s.id(), s.offCalled())));
    pack.steps().values().stream()
        .flatMap(s -> s.pinTable().stream())
        .forEach(t -> t.points().forEach(p -> names.add(Kind.POINT, p.id().value())));
    pack.renamed().forEach(names::rename);
    return names;
  }

  private void addAll(Kind kind, Collection<? extends Id> ids) {
    ids.forEach(id -> add(kind, id.value()));
  }

  /** Adds an id of a pack that does not come from a file. */
  public void add(Kind kind, String id) {
    of(kind).putIfAbsent(id, new Defined(Optional.empty(), Optional.empty()));
  }

  /** Adds an id that stands by itself. Returns the earlier definition, if there is one. */
  public Optional<Defined> add(Kind kind, YamlScalar id) {
    return Optional.ofNullable(
        of(kind).putIfAbsent(id.text(), new Defined(Optional.of(id.at()), Optional.empty())));
  }

  /** Adds an id with its definition. Returns the earlier definition, if there is one. */
  public Optional<Defined> add(Kind kind, Entry entry) {
    return Optional.ofNullable(
        of(kind)
            .putIfAbsent(
                entry.name(), new Defined(Optional.of(entry.key().at()), Optional.of(entry))));
  }

  /** Adds a second name for what an entry defines. Returns the earlier definition, if any. */
  public Optional<Defined> add(Kind kind, YamlScalar name, Entry entry) {
    return Optional.ofNullable(
        of(kind).putIfAbsent(name.text(), new Defined(Optional.of(name.at()), Optional.of(entry))));
  }

  /** Says what an old id is called now. */
  public void rename(String old, String now) {
    renamed.put(old, now);
  }

  /** Whether there is such a thing. */
  public boolean has(Kind kind, String id) {
    return of(kind).containsKey(id);
  }

  /** Its definition. */
  public Optional<Defined> definition(Kind kind, String id) {
    return Optional.ofNullable(of(kind).get(id));
  }

  /** All ids of a kind, in the order of writing. */
  public Set<String> all(Kind kind) {
    return of(kind).keySet();
  }

  /** All ids of the kinds, in the order of writing. */
  public List<String> all(List<Kind> kinds) {
    List<String> ids = new ArrayList<>();
    kinds.forEach(k -> ids.addAll(all(k)));
    return ids;
  }

  /** What an old id is called now. */
  public Optional<String> nowCalled(String old) {
    return Optional.ofNullable(renamed.get(old));
  }

  private Map<String, Defined> of(Kind kind) {
    return defined.computeIfAbsent(kind, k -> new LinkedHashMap<>());
  }
}
