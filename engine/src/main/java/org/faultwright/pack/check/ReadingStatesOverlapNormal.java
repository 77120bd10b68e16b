package org.faultwright.pack.check;

import java.util.List;
import java.util.function.Consumer;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A state off normal in which most readings look normal. */
final class ReadingStatesOverlapNormal implements PackCheck {

  @Override
  public String id() {
    return "reading-states-overlap-normal";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        for (Point.ReadingState state : point.states()) {
          if (hidden(state, point.reference())) {
            found.accept(
                Problem.warning(
                    id(),
                    at.of(StatePlace.path(step, point, state, at) + "/lies"),
                    "in state '%s' of point '%s' most readings look normal"
                        .formatted(state.id(), point.id()),
                    "move its range off the reference, or leave the state out"));
          }
        }
      }
    }
  }

  private static boolean hidden(Point.ReadingState state, Reference normal) {
    if (state.lies().isEmpty()) {
      // A line that is open reads over-range, but for a current and a capacitance.
      return state.id().value().equals("open")
          && normal instanceof Reference.OverRange
          && normal.dimension() != Dimension.CURRENT
          && normal.dimension() != Dimension.CAPACITANCE;
    }
    Reference lies = state.lies().get();
    if (lies instanceof Reference.OverRange || normal instanceof Reference.OverRange) {
      return lies instanceof Reference.OverRange && normal instanceof Reference.OverRange;
    }
    double low = Math.max(low(lies), low(normal));
    double high = Math.min(high(lies), high(normal));
    double width = high(lies) - low(lies);
    return Double.isInfinite(width)
        ? low == low(lies) && high == high(lies)
        : high - low > width / 2;
  }

  private static double low(Reference r) {
    return r instanceof Reference.Around a
        ? a.nominal() - a.tolerance()
        : ((Reference.Within) r).low().orElse(Double.NEGATIVE_INFINITY);
  }

  private static double high(Reference r) {
    return r instanceof Reference.Around a
        ? a.nominal() + a.tolerance()
        : ((Reference.Within) r).high().orElse(Double.POSITIVE_INFINITY);
  }
}
