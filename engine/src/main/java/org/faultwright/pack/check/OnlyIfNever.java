package org.faultwright.pack.check;

import java.util.Map;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.problem.Problem;

/** A step whose condition can never be met. */
final class OnlyIfNever implements PackCheck {

  @Override
  public String id() {
    return "only-if-never";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Map<PointId, StepId> steps = Requirements.stepsOfPoints(pack);
    for (Step step : pack.steps().values()) {
      Requirements.whyNever(step, steps)
          .ifPresent(
              why ->
                  found.accept(
                      Problem.error(
                          id(),
                          at.of("steps/" + step.id() + "/only-if"),
                          "step '" + step.id() + "' can never be done: " + why,
                          "mend the condition, or use 'any' where one of several is enough")));
    }
  }
}
