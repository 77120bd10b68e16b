package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A pointer from an old name to one that does not exist. */
final class RenamedToUnknown implements PackCheck {

  @Override
  public String id() {
    return "renamed-to-unknown";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<String> names = NamesOfPack.all(pack);
    pack.renamed()
        .forEach(
            (old, now) -> {
              if (!names.contains(now)) {
                found.accept(
                    Problem.error(
                        id(),
                        at.of("renamed/" + old),
                        "'%s' is said to be called '%s' now, which this pack does not have"
                            .formatted(old, now),
                        pack.renamed().containsKey(now)
                            ? "point straight at '" + pack.renamed().get(now) + "'"
                            : "name what took its place"));
              }
            });
  }
}
