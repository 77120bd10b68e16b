package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Set;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.junit.jupiter.api.Test;

class PlanTest {

  private static final double ROUNDING = 1e-9;

  private static final ConsentId BOARD_WORK = new ConsentId("board-work");

  private static Plan plan(Pack pack, Permissions permissions, PlanLimits limits) {
    return plan(pack, Bench.reported(pack, "complaint"), permissions, limits);
  }

  private static Plan plan(Pack pack, Situation now, Permissions allowed, PlanLimits limits) {
    return Planner.of(DeviceModel.of(pack), TwoCauses.SEND_ON_FOR_40)
        .plan(TwoCauses.evens(), now, Bench.INTAKE, allowed, limits);
  }

  /** With both repairs: the test for 1, then 10 or 8. Without the second: 1, then 10 or sent on. */
  @Test
  void whatNobodyWasAskedFor_isLeftOut_orTakenAsAgreedAndNamed() {
    Pack pack = TwoCauses.sketch().build();
    Permissions asking =
        Bench.with(Bench.everything(pack), "repair-b", new Condition.Consented(BOARD_WORK));
    Plan kept = plan(pack, asking, PlanLimits.EXACT);
    Plan agreed = plan(pack, asking, PlanLimits.EXACT.ifAgreed());

    assertThat(kept.asIfAgreed()).isEmpty();
    assertThat(kept.expectedCost()).isEqualTo(1 + (10 + 40) / 2.0, within(ROUNDING));
    assertThat(agreed.asIfAgreed()).containsExactly(BOARD_WORK);
    assertThat(agreed.expectedCost()).isEqualTo(1 + (10 + 8) / 2.0, within(ROUNDING));
    assertThat(plan(pack, Bench.everything(pack), PlanLimits.EXACT.ifAgreed()).asIfAgreed())
        .isEqualTo(Set.of());
  }

  /** What a test shows can close a repair that is open as long as nothing is known. */
  @Test
  void whatIsHeldUnlessSomethingIsKnown_closesWithWhatATestShows() {
    Pack pack = TwoCauses.sketch().build();
    Condition bSeen =
        new Condition.OutcomeIs(
            new StepId("test"),
            PlanOracle.pass(pack.steps().get(new StepId("test")).shows().get()));
    Permissions held = Bench.with(Bench.everything(pack), "repair-b", new Condition.Unless(bSeen));
    Plan plan = plan(pack, held, PlanLimits.EXACT);

    // repair b blindly for 8, then a: 8 + 10/2; the test would close it
    assertThat(plan.expectedCost()).isEqualTo(8 + 10 / 2.0, within(ROUNDING));
    assertThat(((PlanNode.DoRepair) plan.root()).step().value()).isEqualTo("repair-b");
    // after b has been seen, a useless repair of a makes what was seen out of date
    assertThat(Bench.worthOf(TwoCauses.look(pack, held), "test").worth())
        .isEqualTo(13 - 1 - (10 + 10 + 8) / 2.0, within(ROUNDING));
  }
}
