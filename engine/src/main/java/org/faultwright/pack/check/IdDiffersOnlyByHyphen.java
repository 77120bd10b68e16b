package org.faultwright.pack.check;

import java.util.HashMap;
import java.util.Map;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** Two names that are easily taken for each other. */
final class IdDiffersOnlyByHyphen implements PackCheck {

  @Override
  public String id() {
    return "id-differs-only-by-hyphen";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    NamesOfPack.byKind(pack)
        .forEach(
            (kind, names) -> {
              Map<String, String> plain = new HashMap<>();
              for (NamesOfPack.Name name : names) {
                String other = plain.putIfAbsent(name.id().replace("-", ""), name.id());
                if (other != null && !other.equals(name.id())) {
                  found.accept(
                      Problem.warning(
                          id(),
                          at.of(name.path()),
                          "'%s' and '%s' differ only by a hyphen".formatted(name.id(), other),
                          "give one of them another name"));
                }
              }
            });
  }
}
