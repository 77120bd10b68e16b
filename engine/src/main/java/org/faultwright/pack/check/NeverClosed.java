package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A device that can be opened and not closed again. */
final class NeverClosed implements PackCheck {

  @Override
  public String id() {
    return "never-closed";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    new BenchReach(pack, Set.of())
        .leftOpen()
        .ifPresent(
            s ->
                found.accept(
                    Problem.warning(
                        id(),
                        at.of("switches/" + s.id() + "/turn-off"),
                        "once it is open, no turning of switches closes the device again: '%s'"
                            + " stays on".formatted(s.id()),
                        "say under 'turn-off' of the switches how it is closed; look at their"
                            + " 'needs'")));
  }
}
