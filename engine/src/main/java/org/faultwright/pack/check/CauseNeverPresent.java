package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A cause that has no likelihood and that nothing brings about. */
final class CauseNeverPresent implements PackCheck {

  @Override
  public String id() {
    return "cause-never-present";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<NodeId> brought = new LinkedHashSet<>();
    pack.steps().values().forEach(s -> s.mayCause().forEach(h -> brought.add(h.cause())));
    pack.parts().values().forEach(p -> brought.add(p.bad()));
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.OnlyCaused
          && cause.follows().isEmpty()
          && !brought.contains(cause.id())) {
        found.accept(
            Problem.warning(
                id(),
                at.of("causes/" + cause.id()),
                "cause '"
                    + cause.id()
                    + "' is never present: it has no likelihood, follows no other"
                    + " cause and no step may do it",
                "give it a prior or a share, or say what it follows"));
      }
    }
  }
}
