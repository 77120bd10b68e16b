package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** History that changes nothing. */
final class AfterFactorOne implements PackCheck {

  @Override
  public String id() {
    return "after-factor-one";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Cause cause : pack.causes().values()) {
      cause
          .after()
          .forEach(
              (history, factor) -> {
                if (factor == 1) {
                  found.accept(
                      Problem.warning(
                          id(),
                          at.of("causes/" + cause.id() + "/after/" + history),
                          "factor x1 changes nothing: '%s' after '%s'"
                              .formatted(cause.id(), history),
                          "give a factor above or below 1, or leave it out"));
                }
              });
    }
  }
}
