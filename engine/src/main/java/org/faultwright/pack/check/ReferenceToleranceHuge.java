package org.faultwright.pack.check;

import java.util.List;
import java.util.function.Consumer;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A tolerance of more than half of the value. */
final class ReferenceToleranceHuge implements PackCheck {

  private static final double MOST = 0.5;

  @Override
  public String id() {
    return "reference-tolerance-huge";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        if (point.reference() instanceof Reference.Around a
            && a.dimension() != Dimension.TEMPERATURE
            && a.nominal() != 0
            && a.tolerance() > MOST * Math.abs(a.nominal())) {
          found.accept(
              Problem.warning(
                  id(),
                  at.of("steps/" + step.id() + "/points/" + point.id() + "/tolerance"),
                  "tolerance of point '%s' is more than half of its reference, so that hardly any"
                          .formatted(point.id())
                      + " reading is off",
                  "if a wide range is meant, write its two limits"));
        }
      }
    }
  }
}
