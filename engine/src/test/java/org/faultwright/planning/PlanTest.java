package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.PackSketch.cause;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Situation;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
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

  /**
   * Exactly one of three causes, c in one of two; repairs for 20 each, a test of c for 1, one of a
   * for 2. The first test saves most: 1 + 20/2 + 30/2 = 26 where repairs alone take 35. Where c is
   * not, the second is due: 2 + 20 where repairs alone take 20 + 20/2.
   */
  @Test
  void aPlanThatStopsEarly_namesTheTestThatIsDue_notARepair() {
    PackSketch sketch =
        new PackSketch("test/three-causes").prior("a", 0.25).prior("b", 0.25).prior("c", 0.5);
    sketch
        .oneOf("which", true, "a", "b", "c")
        .any("lost", cause("a", 1), cause("b", 1), cause("c", 1))
        .complaint("complaint", "lost");
    for (String id : List.of("a", "b", "c")) {
      StepSketch repair = new StepSketch("repair-" + id).changes(id, 1, 0);
      sketch.step(Bench.costing(repair.build(), 20));
    }
    for (String id : List.of("c", "a")) {
      StepSketch test = new StepSketch("test-" + id).looksAt(new CauseId(id), 1, 0).copies(0.25);
      sketch.step(Bench.costing(test.build(), id.equals("c") ? 1 : 2));
    }
    Pack pack = sketch.build();
    Plan plan =
        Planner.of(DeviceModel.of(pack), Bench.sendingOnFor(100))
            .plan(
                Bench.single(Map.of("a", 0.25, "b", 0.25, "c", 0.5)),
                Bench.reported(pack, "complaint"),
                Bench.INTAKE,
                Bench.everything(pack),
                new PlanLimits(Duration.ofMinutes(1), 1, 1e-6, 1));

    PlanNode.DoTest first = (PlanNode.DoTest) plan.root();
    assertThat(first.step().value()).isEqualTo("test-c");
    assertThat(first.branches())
        .extracting(b -> ((PlanNode.AndSoOn) b.then()).next().orElseThrow().value())
        .containsExactlyInAnyOrder("repair-c", "test-a");
  }
}
