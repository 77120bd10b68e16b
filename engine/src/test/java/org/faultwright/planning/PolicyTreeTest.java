package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Set;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.Pack;
import org.faultwright.planning.PlanComparison.Row;
import org.junit.jupiter.api.Test;

/** What comes of policies where more than one function is lost. */
class PolicyTreeTest {

  /** Two causes, each of which loses a function of its own, with its repair and function test. */
  private static Pack twoFunctions() {
    PackSketch sketch = new PackSketch("test/two-functions").prior("a", 0.3).prior("b", 0.3);
    for (String c : List.of("a", "b")) {
      sketch.any("lost-" + c, PackSketch.cause(c, 1));
      sketch.complaint("no-" + c, "lost-" + c);
      sketch.step(Bench.costing(new StepSketch("repair-" + c).changes(c, 0.9, 0).build(), 5));
      sketch.step(
          Bench.costing(
              new StepSketch("prove-" + c).proves("no-" + c, "lost-" + c, 0.95, 0.05).build(), 1));
    }
    return sketch.build();
  }

  @Test
  void planAndRulesGoOn_whenOneOfTwoFunctionsIsBack() {
    Pack pack = twoFunctions();
    Planner planner = Planner.of(DeviceModel.of(pack), Bench.with(60, 10, Bench.PLAIN.proof()));
    LikelyWorlds worlds =
        Bench.worlds(
            List.of("a", "b"),
            List.of(Set.of("a", "b"), Set.of("a"), Set.of("b")),
            List.of(0.4, 0.3, 0.3));
    Situation now = Bench.reported(pack, "no-a", "no-b");
    Permissions all = Bench.everything(pack);
    Plan plan = planner.plan(worlds, now, Bench.INTAKE, all, PlanLimits.EXACT);
    PlanComparison compared =
        planner.compare(worlds, now, Bench.INTAKE, all, plan, new ComparisonLimits(1000, 0, 1));

    assertThat(compared.plan().expectedCost()).isCloseTo(plan.expectedCost(), within(1e-9));
    for (Row row : compared.rows()) {
      assertThat(row.expectedCost()).isGreaterThanOrEqualTo(plan.atLeast() - 1e-9);
      assertThat(row.course().endings().values().stream().mapToDouble(p -> p).sum())
          .isBetween(1 - 1e-9, 1 + 1e-9);
      assertThat(row.course().pOpen()).isZero();
    }
  }
}
