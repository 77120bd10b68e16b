package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Id;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Part;
import org.faultwright.pack.Step;

/**
 * Splits a pack into two that overlap, at random: each thing goes to one of them or to both, and
 * what it refers to goes with it. Where a part, a cause, or an event of any of its inputs goes to
 * both, each of the two may say only some of what is said of it.
 */
public final class PackSplit {

  private final Pack whole;
  private final SplittableRandom random;
  private final Map<Id, Set<Integer>> sides = new LinkedHashMap<>();
  private final Map<List<Id>, Set<Integer>> saidOn = new LinkedHashMap<>();

  private PackSplit(Pack whole, SplittableRandom random) {
    this.whole = whole;
    this.random = random;
  }

  /**
   * Two packs, {@code one} and {@code two} of the family, that say together what the whole says.
   */
  public static List<Pack> of(Pack whole, SplittableRandom random) {
    PackSplit split = new PackSplit(whole, random);
    split.deal();
    return List.of(split.build(0, "one"), split.build(1, "two"));
  }

  private Set<Integer> some() {
    return switch (random.nextInt(3)) {
      case 0 -> Set.of(0);
      case 1 -> Set.of(1);
      default -> Set.of(0, 1);
    };
  }

  private void deal() {
    List<Id> all = new ArrayList<>();
    all.addAll(whole.complaints().keySet());
    all.addAll(whole.histories().keySet());
    all.addAll(whole.symptoms().keySet());
    all.addAll(whole.steps().keySet());
    all.addAll(whole.events().keySet());
    whole.causes().keySet().stream().filter(c -> !isBadNewPart(c)).forEach(all::add);
    all.addAll(whole.parts().keySet());
    all.forEach(id -> sides.put(id, new LinkedHashSet<>(some())));
    Map<Id, Set<Integer>> before;
    do {
      before = copy();
      for (Id owner : all) {
        for (int side : Set.copyOf(sides.get(owner))) {
          owned(owner, side).forEach(id -> put(id, side));
        }
      }
    } while (!before.equals(copy()));
  }

  private boolean isBadNewPart(CauseId cause) {
    return whole.parts().values().stream().anyMatch(p -> p.bad().equals(cause));
  }

  private Map<Id, Set<Integer>> copy() {
    Map<Id, Set<Integer>> copy = new LinkedHashMap<>();
    sides.forEach((id, s) -> copy.put(id, Set.copyOf(s)));
    return copy;
  }

  private void put(Id id, int side) {
    if (id instanceof CauseId cause && isBadNewPart(cause)) {
      whole.parts().values().stream()
          .filter(p -> p.bad().equals(cause))
          .forEach(p -> sides.get(p.id()).add(side));
    } else {
      sides.get(id).add(side);
    }
  }

  /** Whether a side says of the owner that it has this. */
  private boolean says(Id owner, Id item, int side) {
    return sides.get(owner).size() < 2
        || saidOn.computeIfAbsent(List.of(owner, item), k -> some()).contains(side);
  }

  private Set<Id> owned(Id owner, int side) {
    Set<Id> found = new LinkedHashSet<>();
    if (owner instanceof CauseId id) {
      Cause cause = whole.causes().get(id);
      cause.follows().keySet().stream().filter(r -> says(id, r, side)).forEach(found::add);
      cause.after().keySet().stream().filter(h -> says(id, h, side)).forEach(found::add);
      cause.oneOf().ifPresent(g -> found.addAll(whole.groups().get(g).members()));
      if (cause.likelihood() instanceof Cause.Likelihood.Share share) {
        found.add(share.of());
      }
    } else if (owner instanceof EventId id) {
      Event event = whole.events().get(id);
      event.inputs().keySet().stream()
          .filter(n -> !isAny(event) || says(id, n, side))
          .forEach(found::add);
    } else if (whole.complaints().containsKey(owner)) {
      found.add(whole.complaints().get(owner).event());
    } else if (whole.symptoms().containsKey(owner)) {
      whole.symptoms().get(owner).shows().ifPresent(o -> found.addAll(nodes(o)));
    } else if (whole.parts().containsKey(owner)) {
      Part part = whole.parts().get(owner);
      part.carries().stream().filter(c -> says(part.id(), c, side)).forEach(found::add);
      part.reseats().stream().filter(s -> says(part.id(), s, side)).forEach(found::add);
    } else if (whole.steps().containsKey(owner)) {
      found.addAll(ofStep(whole.steps().get(owner)));
    }
    return found;
  }

  private static boolean isAny(Event event) {
    return event.combination() instanceof Event.Combination.Any;
  }

  private static Set<Id> ofStep(Step step) {
    Set<Id> found = new LinkedHashSet<>(step.changes().keySet());
    step.shows().ifPresent(o -> found.addAll(nodes(o)));
    step.pinTable()
        .ifPresent(
            t ->
                t.points()
                    .forEach(p -> p.states().forEach(s -> found.addAll(s.triggers().keySet()))));
    step.mayCause().forEach(h -> found.add(h.cause()));
    step.swap().ifPresent(s -> found.add(s.part()));
    step.proves().ifPresent(found::add);
    return found;
  }

  private static Set<NodeId> nodes(Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      return Set.of(o.node());
    } else if (shows instanceof Observation.OfNodes o) {
      return o.rates().keySet();
    } else if (shows instanceof Observation.OfTable o) {
      return Set.copyOf(o.given());
    }
    Set<NodeId> found = new LinkedHashSet<>();
    ((Observation.OfStates) shows).states().forEach(s -> found.addAll(s.triggers().keySet()));
    return found;
  }

  private Pack build(int side, String name) {
    PackDraft draft = new PackDraft(new PackId(whole.id().family(), name));
    draft.invented = true;
    whole.complaints().values().stream().filter(c -> isOn(c.id(), side)).forEach(draft::complaint);
    whole.histories().values().stream().filter(h -> isOn(h.id(), side)).forEach(draft::history);
    whole.symptoms().values().stream().filter(s -> isOn(s.id(), side)).forEach(draft::symptom);
    whole.steps().values().stream().filter(s -> isOn(s.id(), side)).forEach(draft::step);
    whole.events().values().stream()
        .filter(e -> isOn(e.id(), side))
        .forEach(e -> draft.event(event(e, side)));
    whole.causes().values().stream()
        .filter(c -> !isBadNewPart(c.id()) && isOn(c.id(), side))
        .forEach(c -> draft.cause(cause(c, side)));
    whole.parts().values().stream()
        .filter(p -> isOn(p.id(), side))
        .forEach(
            p -> {
              draft.part(part(p, side));
              draft.cause(whole.causes().get(p.bad()));
            });
    whole.groups().values().stream()
        .filter(g -> g.members().stream().anyMatch(m -> isOn(m, side)))
        .forEach(draft::group);
    draft.instruments.putAll(whole.instruments());
    return draft.build();
  }

  private boolean isOn(Id id, int side) {
    return sides.get(id).contains(side);
  }

  private <K extends Id, V> Map<K, V> some(Id owner, Map<K, V> of, int side) {
    Map<K, V> some = new LinkedHashMap<>();
    of.forEach(
        (k, v) -> {
          if (says(owner, k, side)) {
            some.put(k, v);
          }
        });
    return some;
  }

  private Event event(Event e, int side) {
    return isAny(e)
        ? new Event(
            e.id(), e.title(), e.combination(), some(e.id(), e.inputs(), side), e.otherwise())
        : e;
  }

  private Cause cause(Cause c, int side) {
    return new Cause(
        c.id(),
        c.title(),
        c.kind(),
        c.likelihood(),
        c.oneOf(),
        some(c.id(), c.after(), side),
        some(c.id(), c.follows(), side),
        c.shows(),
        c.boards(),
        c.sendOn());
  }

  private Part part(Part p, int side) {
    Set<CauseId> carries = new LinkedHashSet<>(p.carries());
    carries.removeIf(c -> !says(p.id(), c, side));
    return new Part(
        p.id(),
        p.title(),
        carries,
        p.price(),
        p.paired(),
        p.leadTime(),
        p.reseats().stream().filter(s -> says(p.id(), s, side)).toList(),
        p.leaves(),
        p.afterwards(),
        p.bad());
  }
}
