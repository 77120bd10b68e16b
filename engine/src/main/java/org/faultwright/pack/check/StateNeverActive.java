package org.faultwright.pack.check;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A state that a state listed before it always covers, or that nothing triggers. */
final class StateNeverActive implements PackCheck {

  @Override
  public String id() {
    return "state-never-active";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      String path = "steps/" + step.id();
      if (step.shows().orElse(null) instanceof Observation.OfStates o) {
        Cover cover = new Cover(pack);
        for (int i = 0; i < o.states().size(); i++) {
          Observation.TrueState s = o.states().get(i);
          String listed = path + "/shows/states/" + i + "/state";
          String sequence = path + "/sequence";
          String here = at.exactly(sequence).isPresent() ? sequence : listed;
          look(s.id(), s.triggers(), cover, at, here, found);
        }
      }
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        Cover cover = new Cover(pack);
        for (Point.ReadingState s : point.states()) {
          look(s.id(), s.triggers(), cover, at, StatePlace.path(step, point, s, at), found);
        }
      }
    }
  }

  private void look(
      StateId state,
      Map<NodeId, Chance> triggers,
      Cover cover,
      Positions at,
      String path,
      Consumer<Problem> found) {
    boolean active =
        triggers.entrySet().stream()
            .anyMatch(t -> t.getValue().p() > 0 && !cover.covers(t.getKey()));
    if (!active) {
      found.accept(
          Problem.warning(
              id(),
              at.of(path),
              "state '"
                  + state
                  + "' is never the true state: "
                  + (triggers.isEmpty()
                      ? "nothing triggers it"
                      : "whatever triggers it triggers a state listed before it"),
              "list it before the state that covers it, or leave it out"));
    }
    triggers.forEach(
        (node, strength) -> {
          if (strength.p() == 1) {
            cover.add(node);
          }
        });
  }

  /** Nodes that surely make one of the states listed so far active. */
  private static final class Cover {
    private final Pack pack;
    private final Set<NodeId> sure = new LinkedHashSet<>();

    Cover(Pack pack) {
      this.pack = pack;
    }

    /** The node, and whatever surely brings it about. */
    void add(NodeId node) {
      List<NodeId> open = new ArrayList<>(List.of(node));
      while (!open.isEmpty()) {
        NodeId next = open.remove(open.size() - 1);
        if (sure.add(next)
            && next instanceof EventId id
            && pack.events().get(id).combination() instanceof Event.Combination.Any) {
          pack.events()
              .get(id)
              .inputs()
              .forEach(
                  (input, strength) -> {
                    if (strength.p() == 1) {
                      open.add(input);
                    }
                  });
        }
      }
    }

    /** Whether the node is sure, or is an event all of whose inputs are. */
    boolean covers(NodeId node) {
      if (sure.contains(node) || !(node instanceof EventId id)) {
        return sure.contains(node);
      }
      Event event = pack.events().get(id);
      return event.otherwise().p() == 0
          && !(event.combination() instanceof Event.Combination.None)
          && sure.containsAll(event.inputs().keySet());
    }
  }
}
