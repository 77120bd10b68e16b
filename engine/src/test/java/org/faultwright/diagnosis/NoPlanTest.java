package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.diagnosis.FinchCase.PACK;
import static org.faultwright.diagnosis.FinchCase.REPORTED;
import static org.faultwright.diagnosis.FinchCase.plan;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.PlanNode;
import org.faultwright.rules.Blocked;
import org.junit.jupiter.api.Test;

/** Why there is no step to plan, and what would open one. */
class NoPlanTest {

  /** Sums of a few products. */
  private static final double CLOSE = 1e-9;

  @Test
  void plan_isFound_whenNothingStandsInTheWay() {
    PlanResult result = plan(PACK, "", REPORTED);

    assertThat(result).isInstanceOf(PlanResult.Planned.class);
    assertThat(result.found().orElseThrow().root()).isNotInstanceOf(PlanNode.End.class);
  }

  @Test
  void clash_isNamed_whenTheFactsCannotAllBeTrue() {
    String both =
        "- bench: device-open\n"
            + "- outcome: look-at-fuse\n  is: positive\n"
            + "- outcome: look-at-fuse\n  is: negative\n";
    PlanResult result = plan(PACK, "", REPORTED + both);

    assertThat(result).isEqualTo(new NoPlan.FactsImpossible(Set.of(new FactId(3), new FactId(4))));
    assertThat(result.found()).isEmpty();
  }

  @Test
  void nothingIsPlanned_whenNothingIsReported() {
    assertThat(plan(PACK, "", "")).isEqualTo(new NoPlan.NothingReported());
    assertThat(((NoPlan) plan(PACK, "", "")).end()).isEmpty();
  }

  @Test
  void deviceIsHandedOver_whenTheFunctionIsBack() {
    String repaired =
        "- bench: device-open\n- did: replace-fuse\n- outcome: starts-up\n  is: passed\n";
    NoPlan.FunctionBack back = (NoPlan.FunctionBack) plan(PACK, "", REPORTED + repaired);

    assertThat(back.end().orElseThrow().ending()).isEqualTo(PlanNode.Ending.REPAIRED);
    assertThat(back.end().orElseThrow().pComeback()).isBetween(1e-6, 0.1);
    assertThat(back.end().orElseThrow().spend().hands()).as("closing").isEqualTo(5, within(CLOSE));
  }

  @Test
  void noRepair_isTheReason_whenNoRepairRemovesWhatMayBeThere() {
    String other =
        PACK.replace(
                "does-not-start: {event: no-start}",
                "does-not-start: {event: no-start}\n" + "  is-silent: {event: no-sound}")
            .replace("fuse-open: {prior: 2 %}", "fuse-open: {prior: 2 %}\n  torn: {prior: 1 %}")
            .replace("events:", "events:\n  no-sound: {any: [torn]}");

    assertThat(plan(other, "", "- complaint: is-silent\n")).isInstanceOf(NoPlan.NoRepair.class);
    assertThat(plan(other, "", REPORTED)).isInstanceOf(PlanResult.Planned.class);
  }

  @Test
  void holdAndSwitch_areNamed_whenEveryStepIsHeld() {
    String bulges = "- symptom: cell-bulges\n  is: present\n";
    NoPlan.NothingOpen nothing = (NoPlan.NothingOpen) plan(PACK, "", REPORTED + bulges);
    NoPlan.Obstacle first = nothing.obstacles().get(0);

    assertThat(first.blocked().kind()).isEqualTo(Blocked.Kind.SWITCH_HELD);
    assertThat(first.hold()).contains(new HoldId("bulge"));
    assertThat(first.turn()).contains(new BenchState(new SwitchId("device-open"), true));
    assertThat(first.blocked().wayOut()).isEqualTo("it is lifted by: done: take cell out");
    assertThat(first.opens())
        .containsExactly(new StepId("look-at-fuse"), new StepId("replace-fuse"));
    assertThat(nothing.end().orElseThrow().ending()).isEqualTo(PlanNode.Ending.SENT_ON);
    assertThat(plan(PACK, "", REPORTED + bulges + "- did: take-cell-out\n"))
        .isInstanceOf(PlanResult.Planned.class);
  }

  private static final String WITH_CONSENT =
      PACK.replace("turn-on: {minutes: 5,", "turn-on: {minutes: 5, consent: [opening],");

  @Test
  void consent_isNamed_whenAskingWouldOpenTheSteps() {
    NoPlan.NothingOpen nothing = (NoPlan.NothingOpen) plan(WITH_CONSENT, "", REPORTED);
    NoPlan.Obstacle first = nothing.obstacles().get(0);

    assertThat(first.blocked().kind()).isEqualTo(Blocked.Kind.LACKS_CONSENT);
    assertThat(first.blocked().consent()).contains(new ConsentId("opening"));
    assertThat(first.opens()).contains(new StepId("replace-fuse"));
    assertThat(plan(WITH_CONSENT, "consent: [opening]", REPORTED))
        .isInstanceOf(PlanResult.Planned.class);
  }

  @Test
  void refusal_isNamed_whenTheCustomerHasRefused() {
    NoPlan.NothingOpen nothing =
        (NoPlan.NothingOpen) plan(WITH_CONSENT, "refused: [opening]", REPORTED);

    assertThat(nothing.obstacles().get(0).blocked().kind()).isEqualTo(Blocked.Kind.REFUSED_CONSENT);
  }

  @Test
  void goal_isNamed_whenTheCustomerWantsAPriceFirst() {
    NoPlan.NothingOpen nothing = (NoPlan.NothingOpen) plan(PACK, "goal: estimate", REPORTED);

    assertThat(nothing.obstacles().get(0).blocked().kind()).isEqualTo(Blocked.Kind.GOAL);
  }

  /** 5 to open, 5 to replace, 20 the fuse, 1 the function test. */
  @Test
  void ceilingThatOpensTheFirstRepair_isNamed_whenAllCostMore() {
    NoPlan.AboveCeiling above = (NoPlan.AboveCeiling) plan(PACK, "ceiling: 30", REPORTED);

    assertThat(above.cheapest()).isEqualTo(new StepId("replace-fuse"));
    assertThat(above.ceiling()).isEqualTo(30);
    assertThat(above.cost()).isEqualTo(31, within(CLOSE));
    assertThat(above.refused()).isFalse();
    assertThat(plan(PACK, "ceiling: 31.01", REPORTED)).isInstanceOf(PlanResult.Planned.class);
    String agreed = "- consent: above-ceiling\n  given: yes\n";
    assertThat(plan(PACK, "ceiling: 30", REPORTED + agreed)).isInstanceOf(PlanResult.Planned.class);
    String refused = "- consent: above-ceiling\n  given: no\n";
    assertThat(((NoPlan.AboveCeiling) plan(PACK, "ceiling: 30", REPORTED + refused)).refused())
        .isTrue();
  }

  @Test
  void planAsIfAgreed_goesAboveTheCeiling_andSaysSo() {
    PlanLimits talk = PlanLimits.ORDINARY.ifAgreed();
    Plan plan = plan(PACK, "ceiling: 30", REPORTED, talk).found().orElseThrow();

    assertThat(plan.asIfAgreed()).containsExactly(Conventions.ABOVE_CEILING);
    assertThat(plan(PACK, "ceiling: 40", REPORTED, talk).found().orElseThrow().asIfAgreed())
        .isEmpty();
    String refused = "- consent: above-ceiling\n  given: no\n";
    assertThat(plan(PACK, "ceiling: 30", REPORTED + refused, talk))
        .isInstanceOf(NoPlan.AboveCeiling.class);
  }

  @Test
  void planEndsTheJob_whenThatIsCheaperThanEveryStep() {
    NoPlan.NotWorthIt not = (NoPlan.NotWorthIt) plan(PACK, "device-value: 3", REPORTED);

    assertThat(not.end().orElseThrow().ending()).isEqualTo(PlanNode.Ending.RETURNED);
    assertThat(not.end().orElseThrow().expectedCost()).isEqualTo(3, within(CLOSE));
    assertThat(not.costOfGoingOn()).isGreaterThan(31);
    assertThat(not.obstacles()).isEmpty();
  }

  @Test
  void repairTriedAlready_isNamed_whenNoneIsLeft() {
    String tried =
        "- bench: device-open\n- did: replace-fuse\n- outcome: starts-up\n  is: failed\n";
    NoPlan.NothingOpen nothing = (NoPlan.NothingOpen) plan(PACK, "", REPORTED + tried);

    assertThat(nothing.obstacles().get(0).blocked().kind()).isEqualTo(Blocked.Kind.TRIED_ALREADY);
  }

  /** A cell that has been glued in cannot be brought back once it is out. */
  @Test
  void benchOutOfReach_isNamed_whenASwitchCannotBeTurnedBack() {
    String glued =
        PACK.replace(
                "activities:",
                """
                  cell-in:
                    title: Cell in place
                    off-called: cell-out
                    start: on
                    turn-on: never
                    turn-off: {minutes: 1}

                activities:\
                """)
            .replace("needs: [device-open]", "needs: [device-open, cell-in]");
    NoPlan.NothingOpen nothing =
        (NoPlan.NothingOpen) plan(glued, "", REPORTED + "- bench: cell-out\n");

    assertThat(nothing.obstacles().get(0).blocked().kind())
        .isEqualTo(Blocked.Kind.SWITCH_UNREACHABLE);
    assertThat(plan(glued, "", REPORTED)).isInstanceOf(PlanResult.Planned.class);
  }

  /** A test that catches what is lost with 97 % passes in the rest, and nothing is repaired. */
  @Test
  void functionTestThatOnlyMissesTheFault_isNoPlan() {
    NoPlan.NothingOpen nothing = (NoPlan.NothingOpen) plan(PACK, "goal: estimate", REPORTED);

    assertThat(nothing.end().orElseThrow().expectedCost()).isEqualTo(150, within(CLOSE));
    String byMistake =
        PACK.replace("{event: no-start}", "{event: no-start, reported-by-mistake: 10 %}");
    assertThat(plan(byMistake, "goal: estimate", REPORTED))
        .as("the complaint may be a mistake, and the function test says so")
        .isInstanceOf(PlanResult.Planned.class);
  }
}
