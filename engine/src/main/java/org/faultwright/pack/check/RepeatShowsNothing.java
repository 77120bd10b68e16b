package org.faultwright.pack.check;

import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A step to repeat afterwards that shows nothing. */
final class RepeatShowsNothing implements PackCheck {

  @Override
  public String id() {
    return "repeat-shows-nothing";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    for (Step step : pack.steps().values()) {
      step.thenRepeat()
          .map(pack.steps()::get)
          .filter(t -> t.shows().isEmpty() && t.pinTable().isEmpty())
          .ifPresent(
              then ->
                  found.accept(
                      Problem.warning(
                          id(),
                          at.of("steps/" + step.id() + "/then-repeat"),
                          "step '%s' is to be repeated after '%s', but shows nothing"
                              .formatted(then.id(), step.id()),
                          "name a function test or another step that shows something")));
    }
  }
}
