package org.faultwright.pack.merge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BinaryOperator;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Part;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Symptom;

/**
 * Puts several packs of one device family together. What has the same id in two of them is the same
 * thing and counts once; but {@code unlisted}, {@code no-fault-found} and {@code
 * outside-the-device} are each pack's own.
 *
 * <p>Both must say the same of it. What each pack can only say in part is added up: what a part
 * carries, what a cause follows and comes after, the inputs of an event that needs any of them, the
 * causes that a symptom looks at. Where both say how likely a cause is, the pack that is named
 * first counts. See {@code engine/docs/semantics.md}, "Several packs".
 */
public final class PackMerge {

  private final List<Difference> differences = new ArrayList<>();
  private final Map<String, PackId> saidBy = new LinkedHashMap<>();
  private final Map<PointId, StepId> stepOf = new LinkedHashMap<>();
  private final List<Pack> packs;
  private final PackDraft draft;

  private PackMerge(List<Pack> packs) {
    this.draft = new PackDraft(PackId.ofAll(packs.stream().map(Pack::id).toList()));
    this.packs = OwnCatchAlls.of(packs);
  }

  /**
   * Puts packs together; the order matters only where they differ.
   *
   * @throws IllegalArgumentException when there are none, they are of several families, or one is
   *     there twice
   */
  public static MergedPacks of(List<Pack> packs) {
    return new PackMerge(packs).merge();
  }

  private MergedPacks merge() {
    draft.version = String.join("+", packs.stream().map(Pack::version).toList());
    draft.title = String.join("; ", packs.stream().map(Pack::title).toList());
    draft.invented = packs.stream().anyMatch(Pack::invented);
    packs.forEach(this::add);
    if (differences.stream().anyMatch(d -> d.kind() == Difference.Kind.CLASH)) {
      return new MergedPacks.Clashing(differences);
    }
    MergedShares.settle(draft);
    return new MergedPacks.Whole(draft.build(), differences);
  }

  private void add(Pack pack) {
    draft.boards.addAll(pack.boards());
    pack.tools().forEach(draft.tools::putIfAbsent);
    pack.consents().forEach(draft.consents::putIfAbsent);
    pack.activities().forEach(draft.activities::putIfAbsent);
    pack.cautions().forEach(draft.cautions::putIfAbsent);
    pack.renamed().forEach(draft.renamed::putIfAbsent);
    same("sources", draft.sources, pack.sources(), pack);
    same("switches", draft.switches, pack.switches(), pack);
    same("instruments", draft.instruments, pack.instruments(), pack);
    same("rails", draft.rails, pack.rails(), pack);
    same("complaints", draft.complaints, pack.complaints(), pack);
    same("history", draft.histories, pack.histories(), pack);
    same("one-of", draft.groups, pack.groups(), pack);
    same("steps", draft.steps, pack.steps(), pack);
    same("holds", draft.holds, pack.holds(), pack);
    added("parts", draft.parts, pack.parts(), pack, PackMerge::part);
    added("symptoms", draft.symptoms, pack.symptoms(), pack, PackMerge::symptom);
    added("events", draft.events, pack.events(), pack, PackMerge::event);
    pack.causes().values().forEach(c -> addCause(c, pack));
    pack.clashes().stream().filter(c -> !draft.clashes.contains(c)).forEach(draft.clashes::add);
    oneNameForOneNode(pack);
    onePointInOneStep(pack);
  }

  private <K, V> void same(String section, Map<K, V> into, Map<K, V> from, Pack pack) {
    added(section, into, from, pack, (one, other) -> one);
  }

  /**
   * Adds a section.
   *
   * @param both the first with what the second adds to it; two that contradict each other differ by
   *     which of them is the first
   */
  private <K, V> void added(
      String section, Map<K, V> into, Map<K, V> from, Pack pack, BinaryOperator<V> both) {
    from.forEach(
        (id, theirs) -> {
          String path = section + "/" + id;
          V ours = into.get(id);
          if (ours == null) {
            into.put(id, theirs);
            saidBy.put(path, pack.id());
          } else {
            V added = both.apply(ours, theirs);
            Sameness.difference(added, both.apply(theirs, ours))
                .ifPresent(
                    part -> clash(path, id, saidBy.get(path), pack, "in '" + words(part) + "'"));
            into.put(id, added);
          }
        });
  }

  private void addCause(Cause theirs, Pack pack) {
    String path = "causes/" + theirs.id();
    Cause ours = draft.causes.get(theirs.id());
    if (ours == null) {
      draft.cause(theirs);
      saidBy.put(path, pack.id());
      return;
    }
    PackId first = saidBy.get(path);
    Optional<String> part = MergedCauses.difference(ours, theirs);
    part.ifPresent(p -> clash(path, theirs.id(), first, pack, "in '" + words(p) + "'"));
    if (MergedCauses.differInLikelihood(ours, theirs)) {
      differences.add(
          new Difference(
              first,
              pack.id(),
              path,
              Difference.Kind.FIRST_COUNTS,
              "how likely '"
                  + theirs.id()
                  + "' is, "
                  + first
                  + " and "
                  + pack.id()
                  + " say differently; the first counts",
              "name the pack first whose word is to count"));
    }
    draft.cause(MergedCauses.both(ours, theirs));
  }

  private void clash(String path, Object id, PackId first, Pack pack, String how) {
    differences.add(
        new Difference(
            first,
            pack.id(),
            path,
            Difference.Kind.CLASH,
            "'" + id + "' of " + first + " and '" + id + "' of " + pack.id() + " differ " + how,
            "say the same in both, or call one of them something else"));
  }

  /** The name of a component in words. */
  private static String words(String component) {
    return component.replaceAll("([A-Z])", " $1").toLowerCase(Locale.ROOT);
  }

  /** Causes and events share their names. */
  private void oneNameForOneNode(Pack pack) {
    for (CauseId cause : pack.causes().keySet()) {
      if (draft.events.containsKey(new EventId(cause.value()))) {
        PackId first = saidBy.get("events/" + cause);
        clash("causes/" + cause, cause, first, pack, "in kind: an event there, a cause here");
      }
    }
    for (EventId event : pack.events().keySet()) {
      if (draft.causes.containsKey(new CauseId(event.value()))) {
        PackId first = saidBy.get("causes/" + event);
        clash("events/" + event, event, first, pack, "in kind: a cause there, an event here");
      }
    }
  }

  private void onePointInOneStep(Pack pack) {
    for (Step step : pack.steps().values()) {
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        StepId first = stepOf.putIfAbsent(point.id(), step.id());
        if (first != null && !first.equals(step.id())) {
          clash(
              "steps/" + step.id() + "/points/" + point.id(),
              point.id(),
              saidBy.get("steps/" + first),
              pack,
              "in step: '" + first + "' there, '" + step.id() + "' here");
        }
      }
    }
  }

  private static Part part(Part one, Part other) {
    Set<CauseId> carries = new LinkedHashSet<>(one.carries());
    carries.addAll(other.carries());
    Set<StepId> reseats = new LinkedHashSet<>(one.reseats());
    if (!one.reseats().equals(other.reseats())) {
      reseats.addAll(other.reseats());
      Set<StepId> inOneOrder = new TreeSet<>((a, b) -> a.value().compareTo(b.value()));
      inOneOrder.addAll(reseats);
      reseats = inOneOrder;
    }
    return new Part(
        one.id(),
        one.title(),
        carries,
        one.price().isPresent() ? one.price() : other.price(),
        one.paired(),
        one.leadTime().or(other::leadTime),
        List.copyOf(reseats),
        one.leaves().or(other::leaves),
        one.afterwards().or(other::afterwards),
        one.bad());
  }

  private static Symptom symptom(Symptom one, Symptom other) {
    Optional<Observation> shows = one.shows().or(other::shows);
    if (one.shows().orElse(null) instanceof Observation.OfNodes a
        && other.shows().orElse(null) instanceof Observation.OfNodes b) {
      Map<NodeId, Chance> rates = new LinkedHashMap<>(a.rates());
      b.rates().forEach(rates::putIfAbsent);
      shows =
          Optional.of(new Observation.OfNodes(rates, a.criesWolf(), a.positive(), a.negative()));
    }
    return new Symptom(one.id(), one.title(), shows, one.overlooked(), one.provokes());
  }

  private static Event event(Event one, Event other) {
    Map<NodeId, Chance> inputs = new LinkedHashMap<>(one.inputs());
    if (one.combination() instanceof Event.Combination.Any) {
      other.inputs().forEach(inputs::putIfAbsent);
    }
    return new Event(one.id(), one.title(), one.combination(), inputs, one.otherwise());
  }
}
