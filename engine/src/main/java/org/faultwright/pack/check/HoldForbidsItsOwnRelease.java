package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A hold that forbids what would lift it. */
final class HoldForbidsItsOwnRelease implements PackCheck {

  @Override
  public String id() {
    return "hold-forbids-its-own-release";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    HoldRelease release = new HoldRelease(pack);
    for (Hold hold : pack.holds().values()) {
      if (release.isPossible(hold.until(), Set.of())
          && !release.isPossible(hold.until(), hold.forbids())) {
        found.accept(
            Problem.error(
                id(),
                at.of("holds/" + hold.id() + "/until"),
                "hold '" + hold.id() + "' forbids what it takes to lift it",
                "add another way to 'until', or forbid less"));
      }
    }
  }
}
