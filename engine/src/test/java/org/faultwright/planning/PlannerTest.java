package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.PackSketch.cause;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Harm;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PartId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.junit.jupiter.api.Test;

class PlannerTest {

  private static final double ROUNDING = 1e-12;

  @Test
  void aTestThatOpensARepair_isWorthWhatTheRepairSaves() {
    Pack pack = TwoCauses.sketch().build();
    OutcomeId positive = OutcomeId.POSITIVE;
    Permissions gated =
        Bench.with(
            Bench.everything(pack),
            "repair-a",
            new Condition.OutcomeIs(new StepId("test"), positive));
    Weighing weighing = TwoCauses.look(pack, gated);

    // Without it: repair b, and send on in one case of two. With it: 1, then 10 or 8.
    assertThat(TwoCauses.repairs(weighing)).containsExactly("repair-b");
    assertThat(weighing.costWithoutTests()).isEqualTo(8 + 0.5 * 40, within(ROUNDING));
    Worth worth = Bench.worthOf(weighing, "test");
    assertThat(worth.worth()).isEqualTo(28 - 1 - 9, within(ROUNDING));
    assertThat(worth.branches().get(0).thenRepair()).contains(new StepId("repair-a"));
  }

  @Test
  void aRepairThatAnEarlierRepairOpens_isPlannedAfterIt() {
    Pack pack = TwoCauses.sketch().build();
    Permissions inOrder =
        Bench.with(Bench.everything(pack), "repair-b", new Condition.Done(new StepId("repair-a")));
    Weighing weighing = TwoCauses.look(pack, Bench.without(inOrder, "test"));

    assertThat(TwoCauses.repairs(weighing)).containsExactly("repair-a");
    assertThat(TwoCauses.way(weighing, "repair-a").sequence())
        .containsExactly(new StepId("repair-a"), new StepId("repair-b"));
    assertThat(weighing.expectedCost()).isEqualTo(10 + 0.5 * 8, within(ROUNDING));
  }

  @Test
  void aTestAlreadyAnswered_isNotOfferedAgain_unlessARepeatIsNoMereCopy() {
    Pack pack = TwoCauses.sketch().build();
    Situation answered =
        Bench.reported(pack, "complaint").withOutcome(new StepId("test"), OutcomeId.POSITIVE);
    Worth.Branch again =
        Bench.worthOf(TwoCauses.look(pack, answered, Bench.everything(pack)), "test")
            .branches()
            .get(0);

    // In TwoCauses.evens() the first outcome has not been believed: one in four copies it, the rest
    // is fresh.
    assertThat(again.p()).isEqualTo(0.25 + 0.75 * 0.5, within(ROUNDING));
    Pack copying =
        PricedPacks.withSteps(
            pack,
            s ->
                s.id().value().equals("test")
                    ? Bench.costing(
                        new StepSketch("test").looksAt(new CauseId("a"), 1, 0).build(), 1)
                    : s);
    assertThat(TwoCauses.tests(TwoCauses.look(copying, answered, Bench.everything(copying))))
        .isEmpty();
  }

  @Test
  void aRepairAlreadyDone_isNotPlannedAgain() {
    Pack pack = TwoCauses.sketch().build();
    Situation done = Bench.reported(pack, "complaint").withDone(new StepId("repair-b"));

    assertThat(TwoCauses.repairs(TwoCauses.look(pack, done, Bench.everything(pack))))
        .containsExactly("repair-a");
  }

  /** Closed form: six attempts at most, each cures in half of the cases left. */
  @Test
  void aRepeatableRepair_isPlannedAgain() {
    Pack pack =
        new PackSketch("test/again")
            .prior("a", 1)
            .any("lost", cause("a", 1))
            .complaint("complaint", "lost")
            .step(
                Bench.costing(
                    new StepSketch("repair-a").changes("a", 0.5, 0).repeatable().build(), 1))
            .build();
    Weighing weighing =
        Bench.look(
            pack,
            TwoCauses.SEND_ON_FOR_40,
            Bench.single(Map.of("a", 1.0)),
            Bench.reported(pack, "complaint").withDone(new StepId("repair-a")));

    assertThat(weighing.expectedCost())
        .isEqualTo((1 - Math.pow(0.5, 6)) / 0.5 + Math.pow(0.5, 6) * 40, within(ROUNDING));
    assertThat(TwoCauses.way(weighing, "repair-a").sequence()).hasSize(6);
  }

  /** What shows another complaint's function would only multiply the states that are told apart. */
  @Test
  void whatIsRepeatedAfterARepairOfAnotherComplaint_tellsNoStatesApart() {
    Pack pack =
        TwoCauses.sketch()
            .prior("c", 0.1)
            .any("other-lost", cause("c", 1), cause("a", 0.5), cause("b", 0.5))
            .complaint("other", "other-lost")
            .step(new StepSketch("other-works").looksAt(new EventId("other-lost"), 1, 0).build())
            .step(
                Bench.thenRepeat(
                    new StepSketch("repair-c").changes("c", 1, 0).build(), "other-works"))
            .build();

    assertThat(proofs(pack, "complaint")).doesNotContain("other-works");
    assertThat(proofs(pack, "other")).contains("other-works");
  }

  private static List<String> proofs(Pack pack, String lost) {
    DeviceModel device = DeviceModel.of(pack);
    return new CaseModel(device, List.of(new ComplaintId(lost)), Shop.ORDINARY.proof())
        .proofs.stream()
            .filter(p -> p.step() >= 0)
            .map(p -> device.steps.get(p.step()).id().value())
            .toList();
  }

  @Test
  void handingOver_isAllThatIsLeft_whenNoFunctionIsLost() {
    Pack pack = TwoCauses.sketch().build();
    Situation s = Bench.reported(pack, "complaint");
    Situation proved =
        new Situation(
            s.symptoms(),
            s.outcomes(),
            s.readings(),
            s.histories(),
            s.on(),
            s.done(),
            Map.of(new ComplaintId("complaint"), false),
            s.consents(),
            Goal.WORKING,
            Optional.empty());
    LikelyWorlds worlds =
        Bench.worlds(List.of("a"), List.of(Set.of(), Set.of("a")), List.of(0.9, 0.1));
    Weighing weighing =
        Planner.of(DeviceModel.of(pack), Bench.with(40, 70, Bench.PLAIN.proof()))
            .look(worlds, proved, Bench.INTAKE, Bench.everything(pack));

    assertThat(weighing.pLost()).isEqualTo(0.1, within(ROUNDING));
    assertThat(((NextStep.HandOver) weighing.next()).cost()).isEqualTo(7, within(ROUNDING));
    assertThat(weighing.repairs()).isEmpty();
    assertThat(weighing.tests()).isEmpty();
  }

  @Test
  void exit_isTheCheaperOfSendingOnAndReturning() {
    Pack pack = TwoCauses.sketch().build();
    Shop shop = new Shop(1, 0, 40, 5, 0, 0, Map.of(), Bench.PLAIN.proof());

    assertThat(exit(pack, shop, Bench.INTAKE)).isEqualTo(new Exit(Exit.Kind.SEND_ON, 40));
    assertThat(exit(pack, shop, Bench.worth(100))).isEqualTo(new Exit(Exit.Kind.SEND_ON, 40));
    assertThat(exit(pack, shop, Bench.worth(30))).isEqualTo(new Exit(Exit.Kind.RETURN, 25));
    assertThat(exit(pack, shop, Bench.worth(3))).isEqualTo(new Exit(Exit.Kind.RETURN, 0));
    // the customer can be asked to go above the ceiling, so that it does not lessen the device
    assertThat(exit(pack, shop, paysAtMost(12))).isEqualTo(new Exit(Exit.Kind.SEND_ON, 40));
  }

  private static Exit exit(Pack pack, Shop shop, Intake intake) {
    return Planner.of(DeviceModel.of(pack), shop)
        .look(TwoCauses.evens(), Bench.reported(pack, "complaint"), intake, Bench.everything(pack))
        .exit();
  }

  private static Intake paysAtMost(double ceiling) {
    Intake i = Bench.worth(100);
    return new Intake(
        i.board(),
        i.goal(),
        i.consented(),
        i.refused(),
        OptionalDouble.of(ceiling),
        i.deviceValue(),
        i.irreplaceableData(),
        i.lacking(),
        i.skill());
  }

  /** Opening takes 5 minutes and closing 3; repair a is done in the open device. */
  private static Pack opened() {
    PackDraft draft = PackDraft.of(TwoCauses.sketch().build());
    draft.benchSwitch(Bench.benchSwitch("open", false, Bench.turn(5), Bench.turn(3), true));
    draft.step(Bench.needing(draft.steps.get(new StepId("repair-a")), Bench.on("open")));
    return draft.build();
  }

  @Test
  void bench_isPaidForOnce_andClosedInTheEnd() {
    Weighing weighing = TwoCauses.look(opened(), Bench.without(Bench.everything(opened()), "test"));

    // b first: 8, then in half of the cases 5 to open, 10, 3 to close
    assertThat(TwoCauses.way(weighing, "repair-b").expectedCost()).isEqualTo(17, within(ROUNDING));
    // a first: 5 + 10 and 3 to close, and in half of the cases 8 more
    assertThat(TwoCauses.way(weighing, "repair-a").expectedCost()).isEqualTo(22, within(ROUNDING));
    assertThat(TwoCauses.way(weighing, "repair-a").cost()).isEqualTo(15, within(ROUNDING));
  }

  @Test
  void exit_includesClosing_whereTheDeviceStandsOpen() {
    Pack pack = opened();
    Situation open = Bench.reported(pack, "complaint").withOn(Set.of(Bench.on("open").of()));

    assertThat(TwoCauses.look(pack, open, Bench.everything(pack)).exit().cost()).isEqualTo(43);
  }

  @Test
  void aStep_isNotOffered_whenTheBenchCannotBeGotReadyForIt() {
    Pack pack = opened();
    Permissions all = Bench.everything(pack);
    Map<BenchState, Guard> noOpening = new LinkedHashMap<>(all.turns());
    noOpening.remove(Bench.on("open"));

    assertThat(TwoCauses.repairs(TwoCauses.look(pack, new Permissions(all.steps(), noOpening))))
        .containsExactly("repair-b");
  }

  @Test
  void aTurn_isAllowedByTheBenchThatItsGuardAsksFor() {
    PackDraft draft = PackDraft.of(opened());
    draft.benchSwitch(Bench.benchSwitch("powered", true, Bench.turn(1), Bench.turn(2), false));
    draft.step(Bench.needing(draft.steps.get(new StepId("test")), Bench.on("powered")));
    Pack pack = draft.build();
    Permissions all = Bench.everything(pack);
    Map<BenchState, Guard> turns = new LinkedHashMap<>(all.turns());
    turns.put(Bench.on("open"), new Guard(new Condition.BenchIs(Bench.off("powered"))));
    Weighing weighing = TwoCauses.look(pack, new Permissions(all.steps(), turns));

    // powering down takes 2 minutes more
    assertThat(TwoCauses.way(weighing, "repair-a").cost()).isEqualTo(17, within(ROUNDING));
  }

  @Test
  void consents_thatNobodyHasAskedFor_areWeighedApart() {
    Pack pack = TwoCauses.sketch().build();
    ConsentId boardWork = new ConsentId("board-work");
    Permissions asking =
        Bench.with(Bench.everything(pack), "repair-b", new Condition.Consented(boardWork));
    Weighing weighing = TwoCauses.look(pack, asking);

    assertThat(TwoCauses.repairs(weighing)).containsExactly("repair-a");
    assertThat(TwoCauses.repairs(weighing.ifAgreed().orElseThrow()))
        .containsExactly("repair-b", "repair-a");
    Situation refused = Bench.reported(pack, "complaint");
    refused =
        new Situation(
            refused.symptoms(),
            refused.outcomes(),
            refused.readings(),
            refused.histories(),
            refused.on(),
            refused.done(),
            refused.lost(),
            Map.of(boardWork, false),
            Goal.WORKING,
            Optional.empty());
    assertThat(TwoCauses.look(pack, refused, asking).ifAgreed()).isEmpty();
    assertThat(TwoCauses.look(pack, Bench.everything(pack)).ifAgreed()).isEmpty();
  }

  @Test
  void functionTest_isTheShopsOwn_whereTheRulesForbidThePacks() {
    Pack pack =
        TwoCauses.sketch()
            .step(
                Bench.costing(new StepSketch("proof").proves("complaint", "lost", 1, 0).build(), 2))
            .build();
    Permissions all = Bench.everything(pack);
    Permissions held = Bench.with(all, "proof", new Condition.Done(new StepId("repair-a")));
    Planner planner = Planner.of(DeviceModel.of(pack), Bench.with(40, 0, new Shop.Proof(3, 1, 0)));
    Situation now = Bench.reported(pack, "complaint");
    Weighing weighing = planner.look(TwoCauses.evens(), now, Bench.INTAKE, held);

    assertThat(TwoCauses.way(weighing, "repair-a").proofs()).containsExactly(new StepId("proof"));
    assertThat(TwoCauses.way(weighing, "repair-a").cost()).isEqualTo(12, within(ROUNDING));
    assertThat(TwoCauses.way(weighing, "repair-b").proofs()).isEmpty();
    assertThat(TwoCauses.way(weighing, "repair-b").cost()).isEqualTo(11, within(ROUNDING));
    // b, its own proof, then a with the pack's proof
    assertThat(TwoCauses.way(weighing, "repair-b").expectedCost())
        .isEqualTo(11 + 0.5 * 12, within(ROUNDING));
  }

  @Test
  void functionTest_isTheStepToRepeat_whereTheRepairNamesOne() {
    Pack pack =
        PricedPacks.withSteps(
            TwoCauses.sketch().build(),
            s -> s.id().value().equals("repair-a") ? Bench.thenRepeat(s, "test") : s);
    Weighing weighing = TwoCauses.look(pack, Bench.everything(pack));

    assertThat(TwoCauses.way(weighing, "repair-a").proofs()).containsExactly(new StepId("test"));
    // The test looks at a alone: after repair a it passes, and b is left to come back.
    assertThat(TwoCauses.way(weighing, "repair-a").pPass()).isEqualTo(1, within(ROUNDING));
  }

  @Test
  void everyLostFunction_mustComeBack() {
    Pack pack =
        new PackSketch("test/two-complaints")
            .prior("a", 0.5)
            .prior("b", 0.5)
            .any("silent", cause("a", 1))
            .any("dark", cause("b", 1))
            .complaint("no-sound", "silent")
            .complaint("no-light", "dark")
            .step(Bench.costing(new StepSketch("repair-a").changes("a", 1, 0).build(), 10))
            .step(Bench.costing(new StepSketch("repair-b").changes("b", 1, 0).build(), 8))
            .step(
                Bench.costing(
                    new StepSketch("listen").proves("no-sound", "silent", 1, 0).build(), 1))
            .step(Bench.costing(new StepSketch("look").proves("no-light", "dark", 1, 0).build(), 2))
            .build();
    LikelyWorlds both = Bench.worlds(List.of("a", "b"), List.of(Set.of("a", "b")), List.of(1.0));
    Weighing weighing =
        Bench.look(
            pack, TwoCauses.SEND_ON_FOR_40, both, Bench.reported(pack, "no-sound", "no-light"));

    assertThat(TwoCauses.way(weighing, "repair-b").sequence())
        .containsExactly(new StepId("repair-b"), new StepId("repair-a"));
    assertThat(TwoCauses.way(weighing, "repair-b").proofs())
        .containsExactly(new StepId("listen"), new StepId("look"));
    assertThat(weighing.costWithoutTests()).isEqualTo(8 + 3 + 10 + 3, within(ROUNDING));
    assertThat(
            Bench.look(pack, TwoCauses.SEND_ON_FOR_40, both, Bench.reported(pack, "no-light"))
                .costWithoutTests())
        .isEqualTo(8 + 2, within(ROUNDING));
  }

  @Test
  void harm_partsAndConsumables_areCostsOfAStep() {
    PackDraft draft = PackDraft.of(TwoCauses.sketch().part("flex", Set.of("a")).build());
    Step swap = new StepSketch("swap-flex").swaps("flex", 1).build();
    Step risky =
        new Step(
            swap.id(),
            swap.title(),
            swap.how(),
            swap.effort(),
            0.5,
            swap.conditions(),
            swap.provokes(),
            swap.shows(),
            swap.proves(),
            swap.pinTable(),
            swap.changes(),
            swap.swap(),
            List.of(new Harm(new CauseId("spare"), PackSketch.chance(0.02), 100)),
            swap.thenRepeat(),
            swap.repeatable(),
            swap.copies(),
            swap.dataRisk(),
            swap.limits(),
            swap.cautions(),
            swap.does(),
            swap.boards(),
            swap.compares());
    draft.cause(
        new PackSketch("test/spare")
            .onlyCaused("spare")
            .build()
            .causes()
            .get(new CauseId("spare")));
    draft.step(risky);
    Pack pack = draft.build();
    Shop assumes = new Shop(1, 0, 40, 0, 0, 12, Map.of(), Bench.PLAIN.proof());
    Shop knows = new Shop(1, 0, 40, 0, 0, 12, Map.of(new PartId("flex"), 7.0), Bench.PLAIN.proof());

    // 0.5 used up, 2 for harm, and the part
    assertThat(costOfSwap(pack, assumes)).isEqualTo(14.5, within(ROUNDING));
    assertThat(costOfSwap(pack, knows)).isEqualTo(9.5, within(ROUNDING));
  }

  private static double costOfSwap(Pack pack, Shop shop) {
    Weighing weighing =
        Bench.look(pack, shop, TwoCauses.evens(), Bench.reported(pack, "complaint"));
    return TwoCauses.way(weighing, "swap-flex").cost();
  }

  /** A fault that is hidden passes the function test, and comes back to the customer. */
  @Test
  void aHiddenFault_isAComeback() {
    Pack pack =
        new PackSketch("test/hiding")
            .prior("a", 1)
            .any("lost", cause("a", 1))
            .complaint("complaint", "lost")
            .step(Bench.costing(new StepSketch("wash").changes("a", 0.3, 0.5).build(), 4))
            .build();
    Weighing weighing =
        Bench.look(
            pack,
            Bench.with(40, 20, Bench.PLAIN.proof()),
            Bench.single(Map.of("a", 1.0)),
            Bench.reported(pack, "complaint"));
    RepairWay wash = TwoCauses.way(weighing, "wash");

    // cured .3; stays .7, of which half is hidden: passes, and comes back for 20
    assertThat(wash.pPass()).isEqualTo(0.65, within(ROUNDING));
    assertThat(wash.expectedCost()).isEqualTo(4 + 0.35 * 20 + 0.35 * 40, within(ROUNDING));
  }

  @Test
  void aFaultThatComesAndGoes_passesAtTimes_andComesBack() {
    Pack pack =
        new PackSketch("test/comes-and-goes")
            .prior("a", 1)
            .comesAndGoes("a", 0.4)
            .any("lost", cause("a", 1))
            .complaint("complaint", "lost")
            .step(Bench.costing(new StepSketch("repair-a").changes("a", 0.5, 0).build(), 4))
            .build();
    Weighing weighing =
        Bench.look(
            pack,
            Bench.with(40, 20, Bench.PLAIN.proof()),
            Bench.single(Map.of("a", 1.0)),
            Bench.reported(pack, "complaint"));

    assertThat(TwoCauses.way(weighing, "repair-a").pPass())
        .isEqualTo(0.5 + 0.5 * 0.6, within(ROUNDING));
    assertThat(TwoCauses.way(weighing, "repair-a").expectedCost())
        .isEqualTo(4 + 0.3 * 20 + 0.2 * 40, within(ROUNDING));
  }

  /** Closed form: with the root left in place the follower comes back in every second case. */
  @Test
  void aFollower_comesBackWhileItsRootIsThere() {
    Pack pack =
        new PackSketch("test/follows")
            .prior("root", 1)
            .prior("follower", 0.1)
            .follows("follower", "root", 0.5)
            .any("lost", cause("follower", 1))
            .complaint("complaint", "lost")
            .step(
                Bench.costing(
                    new StepSketch("replace-follower").changes("follower", 1, 0).build(), 4))
            .build();
    LikelyWorlds both =
        Bench.worlds(
            List.of("root", "follower"), List.of(Set.of("root", "follower")), List.of(1.0));
    Weighing weighing =
        Bench.look(pack, TwoCauses.SEND_ON_FOR_40, both, Bench.reported(pack, "complaint"));

    assertThat(TwoCauses.way(weighing, "replace-follower").pPass())
        .isEqualTo(0.5, within(ROUNDING));
  }

  @Test
  void ofManyRepairs_theSixWithTheMostCurePerCost_areWeighed() {
    double[] p = new double[9];
    double[] c = new double[9];
    for (int i = 0; i < p.length; i++) {
      p[i] = 1.0 / p.length;
      c[i] = i % 3 == 0 ? 50 : 10 + i;
    }
    SingleFault nine = SingleFault.of(p, c);

    assertThat(nine.look(Bench.sendingOnFor(500)).repairs())
        .extracting(w -> w.repair().value())
        .containsExactlyInAnyOrder(
            "repair-2", "repair-3", "repair-5", "repair-6", "repair-8", "repair-9");
  }

  @Test
  void nothingCanBeDone_whenNothingIsAllowed() {
    Pack pack = TwoCauses.sketch().build();
    Weighing weighing = TwoCauses.look(pack, new Permissions(Map.of(), Map.of()));

    assertThat(weighing.next()).isEqualTo(new NextStep.Leave(new Exit(Exit.Kind.SEND_ON, 40)));
    assertThat(weighing.expectedCost()).isEqualTo(40);
  }
}
