package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A step that can lose the customer's data without being asked. */
final class DataRiskWithoutConsent implements PackCheck {

  @Override
  public String id() {
    return "data-risk-without-consent";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      if (step.dataRisk() && step.conditions().consent().isEmpty()) {
        found.accept(
            Problem.error(
                id(),
                at.of("steps/" + step.id() + "/data-risk"),
                "step '" + step.id() + "' can lose the customer's data and asks for no consent",
                "add 'consent' with what the customer must agree to"));
      }
    }
  }
}
