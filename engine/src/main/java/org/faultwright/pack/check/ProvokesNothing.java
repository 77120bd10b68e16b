package org.faultwright.pack.check;

import java.util.LinkedHashSet;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A step that provokes what no cause answers to. */
final class ProvokesNothing implements PackCheck {

  @Override
  public String id() {
    return "provokes-nothing";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    Set<ModeId> shown = new LinkedHashSet<>(Set.of(ModeId.AT_REST));
    pack.causes().values().forEach(c -> shown.addAll(c.shows().keySet()));
    for (Step step : pack.steps().values()) {
      if (!shown.contains(step.provokes())) {
        found.accept(
            Problem.warning(
                id(),
                at.of("steps/" + step.id() + "/provokes"),
                "step '%s' provokes '%s', but no cause shows differently then"
                    .formatted(step.id(), step.provokes()),
                "say under 'shows' of a cause how often it acts then, or leave it out"));
      }
    }
  }
}
