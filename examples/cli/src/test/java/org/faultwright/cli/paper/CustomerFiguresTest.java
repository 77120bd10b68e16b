package org.faultwright.cli.paper;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Seen;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Spend;
import org.junit.jupiter.api.Test;

/** Figures for the customer, counted by hand. The shop takes 1 a minute, 0.05 for waiting. */
class CustomerFiguresTest {

  private static Plan plan(double pRepaired, double pReturned, double pOpen) {
    return new Plan(
        new PlanNode.DoTest(
            new StepId("look"),
            List.of(),
            new Spend(10, 20, 0, 0),
            0,
            List.of(
                branch(
                    "a",
                    pRepaired,
                    new PlanNode.End(Ending.REPAIRED, new Spend(5, 0, 30, 9), 0, 0.1)),
                branch(
                    "b",
                    pReturned,
                    new PlanNode.End(Ending.RETURNED, new Spend(5, 0, 82, 0), 0, 0, 80)),
                branch("c", pOpen, new PlanNode.AndSoOn(99, Optional.empty())))),
        Shop.ORDINARY,
        0,
        1,
        0);
  }

  private static PlanNode.Branch branch(String outcome, double p, PlanNode then) {
    return new PlanNode.Branch(new Seen.Shown(new OutcomeId(outcome)), p, then);
  }

  @Test
  void priceOfADeviceGivenBack_isTheWorkAndNotTheDevice() {
    CustomerFigures figures = new CustomerFigures(plan(0.4, 0.6, 0));

    // given back: 10 + 20 * 0.05 + 5 + (82 - 80); repaired: 10 + 1 + 5 + 30, and no risk
    assertThat(figures.price(0.5)).hasValue(18);
    assertThat(figures.price(0.9)).hasValue(46);
    assertThat(figures.pAbove(18)).isEqualTo(0.4);
    assertThat(figures.pAbove(46)).isZero();
  }

  @Test
  void timesAreWithAndWithoutWaiting() {
    CustomerFigures figures = new CustomerFigures(plan(0.4, 0.6, 0));

    assertThat(figures.hands(0.9)).hasValue(15);
    assertThat(figures.bench(0.9)).hasValue(35);
  }

  @Test
  void whatIsNotFollowed_countsAsDearest() {
    CustomerFigures figures = new CustomerFigures(plan(0.4, 0.4, 0.2));

    assertThat(figures.price(0.5)).hasValue(46);
    assertThat(figures.price(0.9)).isEmpty();
    assertThat(figures.hands(0.9)).isEmpty();
  }
}
