package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A fault that more than every second device would have. */
final class PriorTooLarge implements PackCheck {

  /** Largest prior of a single fault that passes without a word. Common practice, no source. */
  private static final double MOST = 0.5;

  @Override
  public String id() {
    return "prior-too-large";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Cause cause : pack.causes().values()) {
      if (cause.kind() == Cause.Kind.FAULT
          && cause.oneOf().isEmpty()
          && cause.likelihood() instanceof Cause.Likelihood.Prior prior
          && prior.chance().p() > MOST) {
        found.accept(
            Problem.warning(
                id(),
                at.of("causes/" + cause.id() + "/prior"),
                "more than every second device taken in would have '%s': a prior is per device,"
                        .formatted(cause.id())
                    + " whatever it is taken in for",
                "did you mean a share of a complaint?"));
      }
    }
  }
}
