package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanComparison.Row;
import org.faultwright.planning.PlanComparison.Way;
import org.faultwright.planning.PlanNode.Ending;
import org.junit.jupiter.api.Test;

/**
 * The textbook setting of repair order, worked by hand. One fault, with probabilities 0.5, 0.3,
 * 0.15 and 0.05 for what no repair cures; sure repairs for 10, 2 and 1; sending on for 30.
 *
 * <p>By probability per cost (0.05, 0.15, 0.15; the pack's order breaks the tie) the second repair
 * goes first: {@code 2 + 0.7 * 1 + 0.55 * 10 + 0.05 * 30 = 9.7}, which is the optimum (Kadane and
 * Simon 1977). The likeliest first: {@code 10 + 0.5 * 2 + 0.2 * 1 + 0.05 * 30 = 12.7}.
 */
class PlanComparisonReference {

  private static final double ROUNDING = 1e-9;

  private static PlanComparison compared() {
    SingleFault three = SingleFault.of(new double[] {.5, .3, .15}, new double[] {10, 2, 1});
    Planner planner = Planner.of(DeviceModel.of(three.pack()), Bench.sendingOnFor(30));
    Permissions all = Bench.everything(three.pack());
    Plan plan = planner.plan(three.worlds(), three.now(), Bench.INTAKE, all, PlanLimits.EXACT);
    return planner.compare(
        three.worlds(), three.now(), Bench.INTAKE, all, plan, new ComparisonLimits(100, 10_000, 1));
  }

  @Test
  void ordersOfRepair_costWhatIsWorkedByHand() {
    PlanComparison compared = compared();

    assertThat(compared.plan().expectedCost()).isEqualTo(9.7, within(ROUNDING));
    assertThat(compared.row(Way.PROBABILITY_PER_COST).expectedCost())
        .isEqualTo(9.7, within(ROUNDING));
    assertThat(compared.row(Way.MOST_INFORMATION).expectedCost()).isEqualTo(9.7, within(ROUNDING));
    assertThat(compared.row(Way.LIKELIEST_FIRST).expectedCost()).isEqualTo(12.7, within(ROUNDING));
    assertThat(compared.timesAsMuch(Way.LIKELIEST_FIRST).orElseThrow())
        .isEqualTo(12.7 / 9.7, within(ROUNDING));
    // hands on: 8.2 minutes by the plan, 11.2 by the likeliest first
    assertThat(compared.minutesMore(Way.LIKELIEST_FIRST)).isEqualTo(3, within(ROUNDING));
    assertThat(compared.plan().course().endings().get(Ending.REPAIRED))
        .isEqualTo(0.95, within(ROUNDING));
  }

  @Test
  void likeliestFirst_goesByProbability() {
    PlanNode at = compared().row(Way.LIKELIEST_FIRST).course().root();
    for (String repair : List.of("repair-1", "repair-2", "repair-3")) {
      assertThat(((PlanNode.DoRepair) at).step()).isEqualTo(new StepId(repair));
      at = ((PlanNode.DoRepair) at).ifFailed();
    }
    assertThat(((PlanNode.End) at).ending()).isEqualTo(Ending.SENT_ON);
  }

  @Test
  void tenThousandDevices_agreeWithinThreeStandardErrors() {
    for (Row row : compared().rows()) {
      Simulated s = row.simulated().orElseThrow();
      assertThat(s.cost()).isEqualTo(row.expectedCost(), within(3 * s.costError()));
      assertThat(s.hands()).isEqualTo(row.expectedHands(), within(3 * s.handsError()));
      double pRepaired = row.course().endings().get(Ending.REPAIRED);
      double error = Math.sqrt(pRepaired * (1 - pRepaired) / s.devices());
      assertThat(s.endings().get(Ending.REPAIRED)).isEqualTo(pRepaired, within(3 * error));
    }
  }
}
