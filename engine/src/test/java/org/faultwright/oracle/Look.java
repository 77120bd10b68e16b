package org.faultwright.oracle;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Id;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;

/**
 * One look at the device of a world: what acts in it, and how likely that makes what it shows.
 *
 * @param name names the draws of the causes that come and go in this look
 * @param epoch when the look is taken
 * @param provokes the mode; empty: in use, where every cause that comes and goes acts
 * @param evenHidden whether causes act that are hidden in this epoch
 */
record Look(
    Pack pack,
    Ancestry ancestry,
    CausesInTime causes,
    Chances chances,
    Object name,
    int epoch,
    Optional<ModeId> provokes,
    boolean evenHidden) {

  /** Whether a cause acts or an event holds. */
  boolean acts(NodeId node) {
    return node instanceof CauseId cause
        ? acts(pack.causes().get(cause))
        : holds(pack.events().get((EventId) node));
  }

  private boolean acts(Cause cause) {
    return causes.isPresent(cause.id(), epoch)
        && (evenHidden
            || provokes.equals(Optional.of(ModeId.INSPECTION))
            || !causes.isHidden(cause.id(), epoch))
        && (provokes.isEmpty() || showsItself(cause, provokes.get()));
  }

  /** Whether a cause that comes and goes acts in this look, should it be present. */
  boolean showsItself(Cause cause, ModeId mode) {
    return chances.flip(List.of("acts", cause.id(), name), cause.pActs(mode));
  }

  private boolean holds(Event event) {
    return combined(event) || otherwise(event);
  }

  boolean otherwise(Event event) {
    return chances.flip(List.of("otherwise", event.id()), event.otherwise().p());
  }

  private boolean combined(Event event) {
    if (event.combination() instanceof Event.Combination.Any) {
      return event.inputs().keySet().stream().anyMatch(input -> counts(event, input));
    } else if (event.combination() instanceof Event.Combination.All) {
      return event.inputs().keySet().stream().allMatch(input -> counts(event, input));
    } else if (event.combination() instanceof Event.Combination.AtLeast atLeast) {
      return event.inputs().keySet().stream().filter(input -> counts(event, input)).count()
          >= atLeast.k();
    }
    return event.inputs().keySet().stream().noneMatch(input -> counts(event, input));
  }

  /** X and U: the input acts, or a bad new part does in its place, and its strength bit is set. */
  private boolean counts(Event event, NodeId input) {
    boolean x = acts(input) || ancestry.badNewParts(input).stream().anyMatch(this::acts);
    return x && strength(event, input);
  }

  boolean strength(Event event, NodeId input) {
    return chances.flip(List.of("strength", event.id(), input), event.inputs().get(input).p());
  }

  /** P(outcome) for each outcome of an observation, in the order of its outcomes. */
  double[] pOutcomes(Id source, Observation shows) {
    if (shows instanceof Observation.OfNode o) {
      return positively(acts(o.node()) ? o.catches().p() : o.criesWolf().p());
    } else if (shows instanceof Observation.OfNodes o) {
      double f = o.criesWolf().p();
      double pNegative = 1 - f;
      for (Map.Entry<NodeId, Chance> rate : o.rates().entrySet()) {
        if (acts(rate.getKey())) {
          pNegative *= (1 - rate.getValue().p()) / (1 - f);
        }
      }
      return positively(1 - pNegative);
    } else if (shows instanceof Observation.OfTable o) {
      List<Boolean> acting = o.given().stream().map(this::acts).toList();
      return o.rows().get(acting).stream().mapToDouble(Chance::p).toArray();
    }
    Observation.OfStates o = (Observation.OfStates) shows;
    StateId state = StateId.NORMAL;
    for (Observation.TrueState s : o.states()) {
      if (isActive(source, s.id(), s.triggers())) {
        state = s.id();
        break;
      }
    }
    Map<?, Chance> row = o.rows().get(state);
    return o.outcomes().stream()
        .mapToDouble(outcome -> row.containsKey(outcome) ? row.get(outcome).p() : 0)
        .toArray();
  }

  private static double[] positively(double p) {
    return new double[] {p, 1 - p};
  }

  /** The true state of a point: 0 for normal, or its place among the states of the point from 1. */
  int state(Point point) {
    for (int i = 0; i < point.states().size(); i++) {
      Point.ReadingState state = point.states().get(i);
      if (isActive(point.id(), state.id(), state.triggers())) {
        return i + 1;
      }
    }
    return 0;
  }

  /** Whether two points that a step compares differ. */
  boolean differ(Step step) {
    Observation.TrueState differs =
        ((Observation.OfStates) step.shows().orElseThrow()).states().get(0);
    return isActive(step.id(), differs.id(), differs.triggers());
  }

  private boolean isActive(Id owner, StateId state, Map<NodeId, Chance> triggers) {
    return triggers.keySet().stream()
        .anyMatch(node -> acts(node) && trigger(owner, state, node, triggers.get(node)));
  }

  boolean trigger(Id owner, StateId state, NodeId node, Chance strength) {
    return chances.flip(List.of("trigger", owner, state, node), strength.p());
  }
}
