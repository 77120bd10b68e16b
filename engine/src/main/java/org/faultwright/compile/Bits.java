package org.faultwright.compile;

import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;

/** Which bits an observation depends on, by the pack alone. */
final class Bits {

  private final Pack pack;
  private final Set<Coordinate> found = new LinkedHashSet<>();
  private final Set<EventId> visited = new LinkedHashSet<>();

  private Bits(Pack pack) {
    this.pack = pack;
  }

  /** The strength bits and otherwise-bits between causes and the observation of a slot. */
  static Set<Coordinate> of(Pack pack, Slot slot) {
    Bits bits = new Bits(pack);
    if (slot.what() instanceof ComplaintId id) {
      bits.node(pack.complaints().get(id).event());
    } else if (slot.what() instanceof SymptomId id) {
      pack.symptoms()
          .get(id)
          .shows()
          .ifPresent(o -> bits.observation(o, s -> new Coordinate.Owner.OfSymptomState(id, s)));
    } else if (slot.what() instanceof StepId id) {
      pack.steps()
          .get(id)
          .shows()
          .ifPresent(o -> bits.observation(o, s -> new Coordinate.Owner.OfStepState(id, s)));
    } else {
      for (Step step : pack.steps().values()) {
        step.pinTable()
            .ifPresent(
                t ->
                    t.points().stream()
                        .filter(p -> p.id().equals(slot.what()))
                        .forEach(bits::point));
      }
    }
    return bits.found;
  }

  private void point(Point point) {
    point
        .states()
        .forEach(s -> edges(new Coordinate.Owner.OfPointState(point.id(), s.id()), s.triggers()));
  }

  private void observation(Observation shows, Function<StateId, Coordinate.Owner> owner) {
    if (shows instanceof Observation.OfStates o) {
      o.states().forEach(s -> edges(owner.apply(s.id()), s.triggers()));
    } else {
      org.faultwright.pack.Lineage.looksAt(shows).forEach(this::node);
    }
  }

  private void edges(Coordinate.Owner owner, Map<? extends NodeId, Chance> inputs) {
    inputs.forEach(
        (input, strength) -> {
          if (strength.p() > 0 && strength.p() < 1) {
            found.add(new Coordinate.Strength(owner, input));
          }
          node(input);
        });
  }

  private void node(NodeId node) {
    if (node instanceof CauseId || !visited.add((EventId) node)) {
      return;
    }
    Event event = pack.events().get((EventId) node);
    if (event.otherwise().p() > 0) {
      found.add(new Coordinate.Otherwise(event.id()));
    }
    edges(new Coordinate.Owner.OfEvent(event.id()), event.inputs());
  }
}
