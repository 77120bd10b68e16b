package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Change;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A repair that touches nothing a customer would notice. */
final class CureOfNothing implements PackCheck {

  @Override
  public String id() {
    return "cure-of-nothing";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<NodeId> reached = new Descent(pack).ofComplaints();
    for (Step step : pack.steps().values()) {
      for (CauseId cause : step.changes().keySet()) {
        Change change = step.changes().get(cause);
        boolean works = change.cures().p() > 0 || change.hides().p() > 0;
        if (!works || !reached.contains(cause)) {
          found.accept(
              Problem.warning(
                  id(),
                  at.of("steps/" + step.id() + "/changes/" + cause),
                  works
                      ? "step '%s' changes cause '%s', which can bring about no complaint"
                          .formatted(step.id(), cause)
                      : "step '%s' neither cures nor hides cause '%s'".formatted(step.id(), cause),
                  "name a cause that it cures, or leave it out"));
        }
      }
    }
  }
}
