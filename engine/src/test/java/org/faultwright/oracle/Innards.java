package org.faultwright.oracle;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Change;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Id;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/**
 * What is inside a simulated device: causes, the bits that are drawn once per case, and attempts.
 */
final class Innards {

  /** Which causes that come and go act in one look; empty: in use, where all of them act. */
  record Acting(Optional<ModeId> provokes, boolean evenHidden, Map<CauseId, Boolean> drawn) {
    static Acting inUse() {
      return new Acting(Optional.empty(), false, new HashMap<>());
    }

    /** In use, once nothing is hidden any longer. */
    static Acting later() {
      return new Acting(Optional.empty(), true, new HashMap<>());
    }

    static Acting when(ModeId mode) {
      return new Acting(Optional.of(mode), mode.equals(ModeId.INSPECTION), new HashMap<>());
    }
  }

  private final Pack pack;
  private final SplittableRandom random;
  private final Set<CauseId> present;
  private final Set<CauseId> hidden = new LinkedHashSet<>();
  private final Set<CauseId> mayBeHidden = new LinkedHashSet<>();
  private final Map<Object, Boolean> oncePerCase = new HashMap<>();

  Innards(Pack pack, SplittableRandom random, Set<CauseId> own) {
    this.pack = pack;
    this.random = random;
    this.present = own;
    bringAboutWhatFollows();
  }

  Set<CauseId> present() {
    return present;
  }

  boolean flip(double p) {
    return random.nextDouble() < p;
  }

  boolean once(Object name, double p) {
    return oncePerCase.computeIfAbsent(name, n -> flip(p));
  }

  boolean acts(NodeId node, Acting acting) {
    if (node instanceof EventId event) {
      return holds(pack.events().get(event), acting);
    }
    Cause cause = pack.causes().get((CauseId) node);
    boolean isHidden = hidden.contains(cause.id()) && !acting.evenHidden();
    if (!present.contains(cause.id()) || isHidden) {
      return false;
    }
    if (acting.provokes().isEmpty() || cause.shows().isEmpty()) {
      return true;
    }
    Chance stated = cause.shows().get(acting.provokes().get());
    if (stated == null && acting.provokes().get().equals(ModeId.INSPECTION)) {
      return true;
    }
    Chance chance = stated == null ? cause.shows().get(ModeId.AT_REST) : stated;
    return acting.drawn().computeIfAbsent(cause.id(), c -> flip(chance.p()));
  }

  private boolean holds(Event event, Acting acting) {
    int count = 0;
    for (Map.Entry<NodeId, Chance> input : event.inputs().entrySet()) {
      boolean strong = once(List.of(event.id(), input.getKey()), input.getValue().p());
      if (strong && actsAsInput(input.getKey(), acting)) {
        count++;
      }
    }
    boolean byItself = once(event.id(), event.otherwise().p());
    Event.Combination how = event.combination();
    int needed =
        how instanceof Event.Combination.AtLeast atLeast
            ? atLeast.k()
            : how instanceof Event.Combination.All ? event.inputs().size() : 1;
    boolean enough = count >= needed;
    return byItself || (how instanceof Event.Combination.None ? !enough : enough);
  }

  private boolean actsAsInput(NodeId input, Acting acting) {
    boolean acts = acts(input, acting);
    for (Part part : pack.parts().values()) {
      acts |= Reach.standsIn(part, input) && acts(part.bad(), acting);
    }
    return acts;
  }

  boolean triggered(Id owner, StateId state, Map<NodeId, Chance> triggers, Acting acting) {
    boolean active = false;
    for (Map.Entry<NodeId, Chance> trigger : triggers.entrySet()) {
      boolean strong = once(List.of(owner, state, trigger.getKey()), trigger.getValue().p());
      active |= strong && acts(trigger.getKey(), acting);
    }
    return active;
  }

  /** Makes an attempt; returns the causes that it touches. */
  Set<CauseId> attempt(Step step) {
    Map<CauseId, Change> changes = changes(step);
    Set<CauseId> moved = new LinkedHashSet<>(changes.keySet());
    step.mayCause().forEach(harm -> moved.add(harm.cause()));
    step.swap().ifPresent(swap -> moved.add(pack.parts().get(swap.part()).bad()));
    moved.addAll(mayBeHidden);

    Set<CauseId> before = Set.copyOf(present);
    changes.forEach(
        (cause, change) -> {
          boolean cured =
              step.repeatable()
                  ? flip(change.cures().p())
                  : once(List.of("success", step.id(), cause), change.cures().p());
          if (cured) {
            present.remove(cause);
          }
        });
    harm(step, before);
    step.swap().ifPresent(this::putIn);
    bringAboutWhatFollows();
    hide(changes);
    return moved;
  }

  private Map<CauseId, Change> changes(Step step) {
    Map<CauseId, Change> all = new LinkedHashMap<>();
    if (step.swap().isPresent()) {
      Part part = pack.parts().get(step.swap().get().part());
      Change sure = new Change(Chance.byDefinition(1), Chance.byDefinition(0));
      part.carries().forEach(c -> all.put(c, sure));
      for (StepId reseated : part.reseats()) {
        pack.steps().get(reseated).changes().forEach((c, x) -> all.merge(c, x, Innards::surer));
      }
    }
    step.changes().forEach((c, x) -> all.merge(c, x, Innards::surer));
    return all;
  }

  private static Change surer(Change one, Change other) {
    return other.cures().p() > one.cures().p() ? other : one;
  }

  private void harm(Step step, Set<CauseId> before) {
    Set<CauseId> struck = new LinkedHashSet<>();
    step.mayCause().stream().filter(h -> flip(h.chance().p())).forEach(h -> struck.add(h.cause()));
    for (OneOf group : pack.groups().values()) {
      boolean free = group.members().stream().noneMatch(before::contains);
      Optional<CauseId> first = group.members().stream().filter(struck::contains).findFirst();
      struck.removeAll(group.members());
      if (free && first.isPresent()) {
        present.add(first.get());
      }
    }
    struck.removeAll(before);
    present.addAll(struck);
  }

  private void putIn(Step.Swap swap) {
    CauseId bad = pack.parts().get(swap.part()).bad();
    if (flip(swap.donorGood().p())) {
      present.remove(bad);
    } else {
      present.add(bad);
    }
  }

  private void bringAboutWhatFollows() {
    int before;
    do {
      before = present.size();
      for (Cause cause : pack.causes().values()) {
        for (Map.Entry<CauseId, Chance> root : cause.follows().entrySet()) {
          if (present.contains(root.getKey())
              && once(List.of("follows", cause.id(), root.getKey()), root.getValue().p())) {
            present.add(cause.id());
          }
        }
      }
    } while (present.size() > before);
  }

  private void hide(Map<CauseId, Change> changes) {
    hidden.clear();
    mayBeHidden.clear();
    changes.forEach(
        (cause, change) -> {
          if (change.hides().p() > 0) {
            mayBeHidden.add(cause);
          }
          if (flip(change.hides().p())) {
            hidden.add(cause);
          }
        });
  }
}
