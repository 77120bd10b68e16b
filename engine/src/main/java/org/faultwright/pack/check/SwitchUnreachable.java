package org.faultwright.pack.check;

import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.problem.Problem;

/** A step that needs what the bench can never be. */
final class SwitchUnreachable implements PackCheck {

  @Override
  public String id() {
    return "switch-unreachable";
  }

  @Override
  public void check(Pack pack, Positions at, Consumer<Problem> found) {
    BenchReach reach = new BenchReach(pack, Set.of());
    Map<Set<BenchState>, Boolean> known = new HashMap<>();
    for (Step step : pack.steps().values()) {
      Set<BenchState> needs = step.conditions().bench();
      boolean sound =
          needs.stream().noneMatch(s -> needs.contains(new BenchState(s.of(), !s.on())));
      if (sound && !known.computeIfAbsent(needs, reach::canHave)) {
        found.accept(
            Problem.error(
                id(),
                at.of("steps/" + step.id() + "/needs"),
                "step '%s' needs %s, which no turning of switches leads to"
                    .formatted(step.id(), BenchReach.inWords(pack, needs)),
                "look at 'turn-on', 'turn-off' and their 'needs' under 'switches'"));
      }
    }
  }
}
