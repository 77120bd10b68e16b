package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.diagnosis.FinchCase.PACK;
import static org.faultwright.diagnosis.FinchCase.REPORTED;
import static org.faultwright.diagnosis.FinchCase.plan;
import static org.faultwright.diagnosis.FinchCase.problems;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.faultwright.pack.BenchState;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.PlanNode;
import org.junit.jupiter.api.Test;

/**
 * Odd prices, times and switches in a pack: refused at their line, or planned with all the same.
 */
class PlanInputTest {

  /** Sums of a few products. */
  private static final double CLOSE = 1e-9;

  /** With the ordinary limits, rare worlds are left out, other ones where causes are added. */
  private static final PlanLimits ALL_WORLDS = new PlanLimits(Duration.ofSeconds(10), 4, 1e-9, 12);

  /** Turning back and forth for nothing leads nowhere, and the plan turns each switch once. */
  @Test
  void freeTurns_doNotKeepAPlanFromItsEnd() {
    String free =
        PACK.replace("turn-on: {minutes: 5,", "turn-on: {minutes: 0,")
            .replace("turn-off: {minutes: 5}", "turn-off: {minutes: 0}");
    Plan plan = plan(free, "", REPORTED).found().orElseThrow();

    List<BenchState> turns = new ArrayList<>();
    plan.courses().forEach(c -> assertThat(c.steps()).isLessThan(12));
    if (plan.root() instanceof PlanNode.DoTest test) {
      turns.addAll(test.turns());
    } else if (plan.root() instanceof PlanNode.DoRepair repair) {
      turns.addAll(repair.turns());
    }
    assertThat(turns).doesNotHaveDuplicates();
    assertThat(plan.courses().stream().mapToDouble(Plan.Course::p).sum())
        .isEqualTo(1, within(CLOSE));
  }

  /** A part without a price costs what the shop assumes of parts: 25 instead of 20. */
  @Test
  void missingPriceOfAPart_isTheShopsAssumption() {
    String unpriced = PACK.replace(", price: 20}", "}");
    NoPlan.AboveCeiling above = (NoPlan.AboveCeiling) plan(unpriced, "ceiling: 30", REPORTED);

    assertThat(above.cost()).isEqualTo(36, within(CLOSE));
  }

  @Test
  void negativeAndMissingCosts_areRefusedAtTheirLine() {
    assertThat(problems(PACK.replace("price: 20", "price: -20"))).contains("[bad-number]", "-20");
    assertThat(problems(PACK.replace("    minutes: 3\n", "    cost: -1\n    minutes: 3\n")))
        .contains("[bad-number]");
    assertThat(problems(PACK.replace("    minutes: 3\n", "    minutes: -3\n")))
        .contains("[bad-time]");
    assertThat(problems(PACK.replace("    minutes: 3\n", "    title: Take it out\n")))
        .contains("[missing-key]", "minutes");
  }

  /** Each of two switches waits for the other. */
  @Test
  void switchesThatWaitForEachOther_areRefused() {
    String cyclic =
        PACK.replace("turn-on: {minutes: 5,", "turn-on: {minutes: 5, needs: [clips-off],")
            .replace(
                "activities:",
                """
                  clips-off:
                    off-called: clips-on
                    start: off
                    turn-on: {minutes: 1, needs: [device-open]}
                    turn-off: {minutes: 1}

                activities:\
                """);

    assertThat(problems(cyclic)).contains("[switch-unreachable]");
  }

  /** The check of packs warns of it; a plan counts closing as nothing then. */
  @Test
  void deviceThatCannotBeClosed_isWarnedOf() {
    String open = PACK.replace("turn-off: {minutes: 5}", "turn-off: never");

    assertThat(problems(open)).contains("[never-closed]");
    Plan plan = plan(open, "", REPORTED).found().orElseThrow();
    assertThat(plan.expectedCost())
        .isLessThan(plan(PACK, "", REPORTED).found().orElseThrow().expectedCost());
  }

  /** The check of packs warns of it; a plan does not do it. */
  @Test
  void repairThatRemovesNothing_isWarnedOf_andNotPlanned() {
    String useless =
        PACK.replace(
                "  starts-up:",
                "  polish-lid:\n"
                    + "    minutes: 0\n"
                    + "    changes: {scratched: {cures: 90 %}}\n"
                    + "  starts-up:")
            .replace("causes:\n", "causes:\n  scratched: {prior: 10 %}\n");

    assertThat(problems(useless)).contains("[cure-of-nothing]");
    Plan plan = plan(useless, "", REPORTED, ALL_WORLDS).found().orElseThrow();
    assertThat(plan.toString()).contains("replace-fuse").doesNotContain("polish-lid");
    assertThat(plan.expectedCost())
        .isEqualTo(
            plan(PACK, "", REPORTED, ALL_WORLDS).found().orElseThrow().expectedCost(),
            within(CLOSE));
  }
}
