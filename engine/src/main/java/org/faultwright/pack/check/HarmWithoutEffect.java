package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Harm;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** Harm that neither shows nor costs. */
final class HarmWithoutEffect implements PackCheck {

  @Override
  public String id() {
    return "harm-without-effect";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<NodeId> reached = new Descent(pack).ofComplaints();
    for (Step step : pack.steps().values()) {
      for (Harm harm : step.mayCause()) {
        if (harm.cost() == 0 && !reached.contains(harm.cause())) {
          found.accept(
              Problem.warning(
                  id(),
                  at.of("steps/" + step.id() + "/may-cause/" + harm.cause()),
                  "harm '%s' of step '%s' brings about no complaint and costs nothing"
                      .formatted(harm.cause(), step.id()),
                  "say what it costs, as in {chance: 1 %, cost: 40}, or name it as an input of an"
                      + " event"));
        }
      }
    }
  }
}
