package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** An old name that is still in use. */
final class RenamedStillThere implements PackCheck {

  @Override
  public String id() {
    return "renamed-still-there";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<String> names = NamesOfPack.all(pack);
    for (String old : pack.renamed().keySet()) {
      if (names.contains(old)) {
        found.accept(
            Problem.error(
                id(),
                at.of("renamed/" + old),
                "'" + old + "' is said to be an old name, but this pack still has it",
                "give the new thing another name: old cases still use this one"));
      }
    }
  }
}
