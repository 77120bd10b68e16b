package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.Cause;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** A way in which a cause shows that no step provokes. */
final class ModeNeverProvoked implements PackCheck {

  @Override
  public String id() {
    return "mode-never-provoked";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<ModeId> provoked = new LinkedHashSet<>(Set.of(ModeId.AT_REST));
    pack.steps().values().forEach(s -> provoked.add(s.provokes()));
    pack.symptoms().values().forEach(s -> provoked.add(s.provokes()));
    for (Cause cause : pack.causes().values()) {
      for (ModeId mode : cause.shows().keySet()) {
        if (!provoked.contains(mode)) {
          found.accept(
              Problem.warning(
                  id(),
                  at.of("causes/" + cause.id() + "/shows/" + mode),
                  "cause '%s' shows when '%s', but no step provokes that"
                      .formatted(cause.id(), mode),
                  "add 'provokes: %s' to a step or a symptom, or leave it out".formatted(mode)));
        }
      }
    }
  }
}
