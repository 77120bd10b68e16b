package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** Replacing a part with which no cause goes away. */
final class SwapOfPartThatCarriesNothing implements PackCheck {

  @Override
  public String id() {
    return "swap-of-part-that-carries-nothing";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<NodeId> reached = new Descent(pack).ofComplaints();
    for (Step step : pack.steps().values()) {
      if (step.swap().isEmpty()) {
        continue;
      }
      Part part = pack.parts().get(step.swap().get().part());
      if (part.carries().stream().noneMatch(reached::contains)) {
        found.accept(
            Problem.warning(
                id(),
                at.of("steps/" + step.id() + "/swap"),
                "no cause of a complaint goes away with part '" + part.id() + "'",
                "list under 'carries' of the part what goes away with it"));
      }
    }
  }
}
