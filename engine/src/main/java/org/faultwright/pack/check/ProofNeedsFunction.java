package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A function test that needs the function it proves. */
final class ProofNeedsFunction implements PackCheck {

  @Override
  public String id() {
    return "proof-needs-function";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      step.proves()
          .filter(step.conditions().working()::contains)
          .ifPresent(
              complaint ->
                  found.accept(
                      Problem.error(
                          id(),
                          at.of("steps/" + step.id() + "/needs-working"),
                          "step '%s' proves the function of '%s' and cannot be done without it"
                              .formatted(step.id(), complaint),
                          "leave the complaint out of 'needs-working'")));
    }
  }
}
