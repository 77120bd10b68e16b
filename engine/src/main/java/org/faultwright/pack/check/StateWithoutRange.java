package org.faultwright.pack.check;

import java.util.List;
import java.util.function.Consumer;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A state of a point whose name does not say where readings lie. */
final class StateWithoutRange implements PackCheck {

  @Override
  public String id() {
    return "state-without-range";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        for (Point.ReadingState state : point.states()) {
          if (state.lies().isEmpty()
              && ReadingModel.COMMON_STATES.contains(state.id().value())
              && !ReadingModel.knowsRange(state.id().value(), point.reference())) {
            found.accept(
                Problem.error(
                    id(),
                    at.of(StatePlace.path(step, point, state, at)),
                    "state '%s' of point '%s' does not say where readings lie"
                        .formatted(state.id(), point.id()),
                    "list it under 'states' with 'lies', for example lies: {high: %s}"
                        .formatted(point.reference().dimension().example())));
          }
        }
      }
    }
  }
}
