package org.faultwright.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.Facts.done;
import static org.faultwright.oracle.Facts.notReported;
import static org.faultwright.oracle.Facts.outcome;
import static org.faultwright.oracle.Facts.reported;
import static org.faultwright.oracle.Facts.said;
import static org.faultwright.oracle.Facts.symptom;
import static org.faultwright.oracle.Facts.told;
import static org.faultwright.oracle.Facts.traces;
import static org.faultwright.oracle.PackSketch.cause;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomValue;
import org.junit.jupiter.api.Test;

/**
 * One closed form for each statement of {@code engine/docs/semantics.md}: whatever says that it
 * answers by that definition must give these numbers.
 */
public abstract class SemanticsContract {

  private static final Offset<Double> EXACT = within(1e-13);
  private static final CauseId A = new CauseId("a");
  private static final CauseId B = new CauseId("b");
  private static final EventId E = new EventId("e");
  private static final StepId TEST = new StepId("test");

  private static PackSketch pack() {
    return new PackSketch("test-family/semantics");
  }

  /** What is under test, asked about a pack and what is told of a device. */
  protected abstract Answers answers(Pack pack, List<Told> facts);

  private Answers after(PackSketch sketch, Fact... facts) {
    return answers(sketch.build(), told(facts));
  }

  private static StepSketch test(double catches, double criesWolf) {
    return new StepSketch("test").looksAt(A, catches, criesWolf);
  }

  private static double pPositive(Answers worlds) {
    return worlds.outcomes(TEST).getOrDefault(OutcomeId.POSITIVE, 0.0);
  }

  private static final Fact POSITIVE = outcome("test", "positive");
  private static final Fact NEGATIVE = outcome("test", "negative");

  @Test
  void eventsCombineTheirInputs_whenStrengthsAndOtherwiseAreStated() {
    PackSketch two = pack().prior("a", 0.3).prior("b", 0.4);
    PackSketch.Input[] inputs = {cause("a", 0.5), cause("b", 0.8)};
    double a = 0.15;
    double b = 0.32;
    two.event("e", new Event.Combination.Any(), 0.1, inputs);
    assertThat(after(two).p(E)).isEqualTo(1 - (1 - a) * (1 - b) * 0.9, EXACT);
    two.event("e", new Event.Combination.All(), 0.1, inputs);
    assertThat(after(two).p(E)).isEqualTo(1 - (1 - a * b) * 0.9, EXACT);
    two.event("e", new Event.Combination.None(), 0.1, inputs);
    assertThat(after(two).p(E)).isEqualTo(1 - (1 - (1 - a) * (1 - b)) * 0.9, EXACT);
    two.event("e", new Event.Combination.AtLeast(1), 0, inputs);
    assertThat(after(two).p(E)).isEqualTo(1 - (1 - a) * (1 - b), EXACT);
    two.event("e", new Event.Combination.AtLeast(2), 0, inputs);
    assertThat(after(two).p(E)).isEqualTo(a * b, EXACT);
  }

  @Test
  void reportIsAboutTheTimeBeforeAttempts_whenToldLater() {
    PackSketch lamp =
        pack()
            .prior("a", 0.2)
            .any("e", cause("a", 1))
            .complaint("lost", "e", 0.1, 0.05)
            .step(new StepSketch("repair").changes("a", 1, 0));
    double pReported = 0.2 + 0.8 * 0.1;
    assertThat(after(lamp, reported("lost")).p(A)).isEqualTo(0.2 / pReported, EXACT);
    assertThat(after(lamp, done("repair"), reported("lost")).pEvidence())
        .isEqualTo(pReported, EXACT);
    assertThat(after(lamp, done("repair"), reported("lost")).p(A)).isZero();
    assertThat(after(lamp, notReported("lost")).pEvidence()).isEqualTo(1 - pReported, EXACT);
    assertThat(after(lamp, reported("lost"), reported("lost")).pEvidence())
        .isEqualTo(pReported, EXACT);
    assertThat(after(lamp, reported("lost"), notReported("lost")).isImpossible()).isTrue();
  }

  @Test
  void historyMultipliesOddsAndKeepsThePrior_whenItIsUnknown() {
    PackSketch drop = pack().history("drop", 0.5, 0.9, 0.2).prior("a", 0.3).after("a", "drop", 4);
    assertThat(after(drop).p(A)).isEqualTo(0.3, EXACT);
    // base odds x: (x/(1+x) + 4x/(1+4x)) / 2 = 0.3, that is 5.6 x^2 + 2 x - 0.6 = 0
    double x = (-2 + Math.sqrt(4 + 4 * 5.6 * 0.6)) / (2 * 5.6);
    double without = x / (1 + x);
    double with = 4 * x / (1 + 4 * x);
    double pYes = 0.5 * 0.9 + 0.5 * 0.2;
    assertThat(after(drop, said("drop", true)).p(A))
        .isEqualTo((0.45 * with + 0.1 * without) / pYes, EXACT);
    assertThat(after(drop, said("drop", true), traces("drop", false)).pEvidence())
        .isEqualTo(0.5 * 0.9 * 0.1 + 0.5 * 0.2 * 0.8, EXACT);
  }

  @Test
  void historyMultipliesTheWeightOfAMember_whenTheCauseIsInAGroup() {
    PackSketch drop =
        pack()
            .history("drop", 0.5, 1, 0)
            .prior("a", 0.3)
            .prior("b", 0.2)
            .after("a", "drop", 4)
            .oneOf("group", false, "a", "b");
    assertThat(after(drop).p(A)).isEqualTo(0.3, EXACT);
    assertThat(after(drop).p(B)).isEqualTo(0.2, EXACT);
    double with = after(drop, said("drop", true)).p(A);
    double without = after(drop, said("drop", false)).p(A);
    double bWith = after(drop, said("drop", true)).p(B);
    double bWithout = after(drop, said("drop", false)).p(B);
    // weights against none: four times for a, the same for b
    assertThat(with / (1 - with - bWith) / (without / (1 - without - bWithout)))
        .isEqualTo(4, within(1e-10));
    assertThat(bWith / (1 - with - bWith)).isEqualTo(bWithout / (1 - without - bWithout), EXACT);
  }

  @Test
  void causeComesBack_whenOnlyWhatFollowsWasRepaired() {
    PackSketch chain =
        pack()
            .prior("a", 0.2)
            .prior("b", 0.1)
            .follows("b", "a", 0.6)
            .step(new StepSketch("repair-b").changes("b", 1, 0))
            .step(new StepSketch("repair-a").changes("a", 1, 0));
    assertThat(after(chain).p(B)).isEqualTo(1 - 0.9 * (1 - 0.2 * 0.6), EXACT);
    assertThat(after(chain, done("repair-b")).p(B)).isEqualTo(0.2 * 0.6, EXACT);
    assertThat(after(chain, done("repair-a")).p(B)).isEqualTo(1 - 0.9 * (1 - 0.2 * 0.6), EXACT);
    assertThat(after(chain, done("repair-a"), done("repair-b")).p(B)).isZero();
  }

  @Test
  void causeActsByWhatProvokesIt_whenItComesAndGoes() {
    ModeId bent = new ModeId("bent");
    ModeId warm = new ModeId("warm");
    PackSketch flex =
        pack()
            .prior("a", 0.5)
            .comesAndGoes("a", 0.3)
            .comesAndGoes("a", bent, 0.9)
            .any("e", cause("a", 1))
            .complaint("lost", "e");
    assertThat(after(flex).p(E)).isEqualTo(0.15, EXACT);
    assertThat(after(flex, reported("lost")).pEvidence()).isEqualTo(0.5, EXACT);
    assertThat(pPositive(after(flex.step(test(1, 0))))).isEqualTo(0.15, EXACT);
    assertThat(pPositive(after(flex.step(test(1, 0).provokes(bent))))).isEqualTo(0.45, EXACT);
    assertThat(pPositive(after(flex.step(test(1, 0).provokes(warm))))).isEqualTo(0.15, EXACT);
  }

  @Test
  void repeatCopiesOrIsFresh_whenKappaIsBetween() {
    PackSketch flex = pack().prior("a", 1).comesAndGoes("a", 0.3).step(test(1, 0).copies(0.6));
    assertThat(pPositive(after(flex, POSITIVE))).isEqualTo(0.6 + 0.4 * 0.3, EXACT);
    assertThat(pPositive(after(flex, NEGATIVE))).isEqualTo(0.4 * 0.3, EXACT);
    assertThat(after(flex, NEGATIVE, POSITIVE, POSITIVE).pEvidence())
        .isEqualTo(0.7 * 0.12 * 0.12, EXACT);
    assertThat(after(flex, POSITIVE, POSITIVE, NEGATIVE).pEvidence())
        .isEqualTo(0.3 * (0.6 + 0.12) * 0.4 * 0.7, EXACT);
  }

  @Test
  void repeatIsFresh_whenSomethingItDependsOnWasTouched() {
    PackSketch pack =
        pack()
            .prior("a", 0.5)
            .prior("b", 0.5)
            .step(test(0.8, 0.1))
            .step(new StepSketch("repair-a").changes("a", 0, 0))
            .step(new StepSketch("repair-b").changes("b", 1, 0));
    assertThat(after(pack, POSITIVE, done("repair-b"), NEGATIVE).isImpossible()).isTrue();
    assertThat(after(pack, POSITIVE, done("repair-a"), NEGATIVE).pEvidence())
        .isEqualTo(0.5 * 0.8 * 0.2 + 0.5 * 0.1 * 0.9, EXACT);
  }

  @Test
  void failedRepairFailsAgain_unlessItIsRepeatable() {
    StepSketch once = new StepSketch("repair").changes("a", 0.7, 0);
    Fact repair = done("repair");
    assertThat(after(pack().prior("a", 0.5).step(once), repair, repair).p(A))
        .isEqualTo(0.5 * 0.3, EXACT);
    assertThat(after(pack().prior("a", 0.5).step(once.repeatable()), repair, repair).p(A))
        .isEqualTo(0.5 * 0.3 * 0.3, EXACT);
  }

  @Test
  void hiddenCauseActsAgain_whenAnythingElseIsAttempted() {
    PackSketch pack =
        pack()
            .prior("a", 0.5)
            .prior("b", 0.5)
            .step(test(1, 0))
            .step(new StepSketch("reseat").changes("a", 0.2, 0.75))
            .step(new StepSketch("other").changes("b", 1, 0));
    assertThat(after(pack, done("reseat")).p(A)).isEqualTo(0.5 * 0.8, EXACT);
    assertThat(pPositive(after(pack, done("reseat")))).isEqualTo(0.5 * 0.8 * 0.25, EXACT);
    assertThat(pPositive(after(pack, done("reseat"), NEGATIVE, done("other"))))
        .isEqualTo(0.5 * 0.8 * 0.75 / (1 - 0.5 * 0.8 * 0.25), EXACT);
  }

  @Test
  void inspectionSeesWhatIsThere_whenItIsHiddenOrComesAndGoes() {
    PackSketch pack =
        pack()
            .prior("a", 0.5)
            .comesAndGoes("a", 0.6)
            .any("e", cause("a", 1))
            .step(new StepSketch("reseat").changes("a", 0.2, 0.75));
    Fact reseat = done("reseat");
    assertThat(pPositive(after(pack.step(test(1, 0)), reseat)))
        .isEqualTo(0.5 * 0.8 * 0.25 * 0.6, EXACT);
    assertThat(pPositive(after(pack.step(test(1, 0).provokes(ModeId.INSPECTION)), reseat)))
        .isEqualTo(0.5 * 0.8, EXACT);
  }

  @Test
  void harmStrikesAtEachAttempt_whenTheCauseIsAbsent() {
    PackSketch pack = pack().prior("a", 0.5).step(new StepSketch("open").mayCause("a", 0.1));
    assertThat(after(pack, done("open")).p(A)).isEqualTo(0.5 + 0.5 * 0.1, EXACT);
    assertThat(after(pack, done("open"), done("open")).p(A)).isEqualTo(1 - 0.5 * 0.9 * 0.9, EXACT);
  }

  @Test
  void cureLeadsToNoneAndHarmStrikesOnlyThere_whenCausesAreInACertainGroup() {
    PackSketch pack =
        pack()
            .prior("a", 0.6)
            .prior("b", 0.4)
            .oneOf("group", true, "a", "b")
            .step(new StepSketch("repair").changes("a", 0.5, 0).mayCause("b", 0.2));
    Answers once = after(pack, done("repair"));
    assertThat(once.p(A)).isEqualTo(0.3, EXACT);
    assertThat(once.p(B)).isEqualTo(0.4, EXACT);
    // cured at the first attempt: none; then b is struck
    Answers twice = after(pack, done("repair"), done("repair"));
    assertThat(twice.p(A)).isEqualTo(0.3, EXACT);
    assertThat(twice.p(B)).isEqualTo(0.4 + 0.3 * 0.2, EXACT);
  }

  @Test
  void newPartMayBeBadEachTime_whenAPartIsSwapped() {
    PackSketch pack =
        pack()
            .prior("a", 0.5)
            .prior("b", 0.5)
            .any("e", cause("a", 0.8))
            .part("flex", Set.of("a"), "reseat")
            .step(new StepSketch("reseat").changes("b", 0.9, 0))
            .step(new StepSketch("swap").swaps("flex", 0.7))
            .step(test(1, 0));
    CauseId bad = new CauseId("new-flex-bad");
    Answers once = after(pack, done("swap"));
    assertThat(once.p(A)).isZero();
    assertThat(once.p(B)).as("reseated along with it").isEqualTo(0.05, EXACT);
    assertThat(once.p(bad)).isEqualTo(0.3, EXACT);
    assertThat(once.p(E)).as("read as a, with its strength").isEqualTo(0.3 * 0.8, EXACT);
    assertThat(pPositive(once)).as("it has no other effect").isZero();
    assertThat(after(pack, done("swap"), done("swap")).p(bad)).isEqualTo(0.3, EXACT);
  }

  @Test
  void firstLookIsWeakerThanACloseOne_whenASymptomIsNotSeen() {
    Observation stains =
        new Observation.OfNode(
            A,
            PackSketch.chance(0.8),
            PackSketch.chance(0.1),
            OutcomeId.POSITIVE,
            OutcomeId.NEGATIVE);
    PackSketch pack = pack().prior("a", 0.5).symptom("stains", stains, 0.4);
    Fact present = symptom("stains", SymptomValue.PRESENT);
    Fact notSeen = symptom("stains", SymptomValue.NOT_SEEN);
    Fact absent = symptom("stains", SymptomValue.ABSENT);
    double a = 0.5 * (0.4 * 0.8 + 0.2);
    double notA = 0.5 * (0.4 * 0.1 + 0.9);
    assertThat(after(pack, notSeen).p(A)).isEqualTo(a / (a + notA), EXACT);
    assertThat(after(pack, notSeen, notSeen).pEvidence()).isEqualTo(a + notA, EXACT);
    assertThat(after(pack, notSeen, present).pEvidence())
        .isEqualTo(0.4 * (0.5 * 0.8 + 0.5 * 0.1), EXACT);
    assertThat(after(pack, absent, notSeen).pEvidence()).isEqualTo(0.5 * 0.2 + 0.5 * 0.9, EXACT);
    assertThat(after(pack, present, absent).isImpossible()).isTrue();
    assertThat(after(pack, symptom("stains", SymptomValue.NOT_KNOWN)).pEvidence())
        .isEqualTo(1, EXACT);
  }

  @Test
  void symptomIsLookedForAsItProvokes_whenACauseComesAndGoes() {
    Observation flicker =
        new Observation.OfNode(
            A, PackSketch.chance(1), PackSketch.chance(0), OutcomeId.POSITIVE, OutcomeId.NEGATIVE);
    ModeId bent = new ModeId("bent");
    PackSketch pack =
        pack()
            .prior("a", 0.5)
            .comesAndGoes("a", 0.3)
            .comesAndGoes("a", bent, 0.9)
            .symptom("flicker", flicker, 0.5);
    Fact present = symptom("flicker", SymptomValue.PRESENT);
    assertThat(after(pack, present).pEvidence()).isEqualTo(0.5 * 0.3, EXACT);
    assertThat(after(pack.provokes("flicker", bent), present).pEvidence())
        .isEqualTo(0.5 * 0.9, EXACT);
  }

  @Test
  void rowsFollowTheFirstActiveState_whenAnObservationHasSeveral() {
    OutcomeId red = new OutcomeId("red");
    OutcomeId green = new OutcomeId("green");
    StateId open = new StateId("open");
    StateId low = new StateId("low");
    Observation lamp =
        new Observation.OfStates(
            List.of(
                new Observation.TrueState(open, PackSketch.inputs(cause("a", 0.6))),
                new Observation.TrueState(low, PackSketch.inputs(cause("b", 1)))),
            List.of(red, green),
            Map.of(
                open,
                Map.of(red, PackSketch.chance(0.9), green, PackSketch.chance(0.1)),
                low,
                Map.of(red, PackSketch.chance(0.4), green, PackSketch.chance(0.6)),
                StateId.NORMAL,
                Map.of(red, PackSketch.chance(0), green, PackSketch.chance(1))));
    PackSketch pack =
        pack().prior("a", 0.5).prior("b", 0.2).step(new StepSketch("test").shows(lamp));
    double pOpen = 0.3;
    double pLow = 0.7 * 0.2;
    assertThat(after(pack).outcomes(TEST).get(red)).isEqualTo(0.9 * pOpen + 0.4 * pLow, EXACT);
  }

  @Test
  void silencesMultiply_whenATestLooksAtSeveralCauses() {
    Observation sweep =
        new Observation.OfNodes(
            PackSketch.inputs(cause("a", 0.8), cause("b", 0.5)),
            PackSketch.chance(0.1),
            OutcomeId.POSITIVE,
            OutcomeId.NEGATIVE);
    PackSketch pack = pack().prior("a", 1).step(new StepSketch("test").shows(sweep));
    assertThat(pPositive(after(pack.prior("b", 0)))).isEqualTo(0.8, EXACT);
    assertThat(pPositive(after(pack.prior("b", 1)))).isEqualTo(1 - 0.2 * 0.5 / 0.9, EXACT);
  }
}
