package org.faultwright.pack.check;

import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Pack;
import org.faultwright.pack.SourceId;
import org.faultwright.problem.Problem;

/** A source on which no number rests. */
final class SourceUnused implements PackCheck {

  @Override
  public String id() {
    return "source-unused";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<SourceId> used = SourcesUsed.in(pack);
    for (SourceId source : pack.sources().keySet()) {
      String path = "sources/" + source;
      if (!used.contains(source) && at.isOwn(path)) {
        found.accept(
            Problem.warning(
                id(),
                at.of(path),
                "no number rests on source '" + source + "'",
                "name it where it is used, or leave it out"));
      }
    }
  }
}
