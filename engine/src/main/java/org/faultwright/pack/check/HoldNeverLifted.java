package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A hold that nothing can lift. */
final class HoldNeverLifted implements PackCheck {

  @Override
  public String id() {
    return "hold-never-lifted";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    HoldRelease release = new HoldRelease(pack);
    for (Hold hold : pack.holds().values()) {
      if (!release.isPossible(hold.until(), Set.of())) {
        found.accept(
            Problem.error(
                id(),
                at.of("holds/" + hold.id() + "/until"),
                "nothing can lift hold '" + hold.id() + "': its 'until' can never be met",
                "name something that can be done, seen or reached"));
      }
    }
  }
}
