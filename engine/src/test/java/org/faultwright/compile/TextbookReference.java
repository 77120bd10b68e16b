package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.Facts.outcome;
import static org.faultwright.oracle.Facts.said;
import static org.faultwright.oracle.Facts.symptom;
import static org.faultwright.oracle.Facts.told;
import static org.faultwright.oracle.PackSketch.cause;
import static org.faultwright.oracle.PackSketch.chance;
import static org.faultwright.oracle.PackSketch.event;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.SymptomValue;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Worked examples of textbooks, said as packs. */
class TextbookReference {

  private static Belief belief(Pack pack, Fact... facts) {
    return (Belief) ((CompiledPack) CompiledPack.compile(pack)).belief(told(facts));
  }

  private static CauseId id(String cause) {
    return new CauseId(cause);
  }

  /** A step whose outcome is the node itself. */
  private static StepSketch reveals(String step, NodeId node) {
    return new StepSketch(step).looksAt(node, 1, 0);
  }

  /**
   * The chest clinic. S. L. Lauritzen, D. J. Spiegelhalter, "Local computations with probabilities
   * on graphical structures and their application to expert systems", JRSS B 50(2), 1988, 157-224;
   * tables as in several published copies, posteriors recomputed, those for lung, bronchitis and
   * P(evidence) also read in a published run of another program.
   *
   * <p>History multiplies odds: from 0.01 to 0.05 is a factor (0.05/0.95)/(0.01/0.99), and so on.
   */
  @Nested
  class ChestClinic {
    private static final Offset<Double> AS_PRINTED = within(1e-8);
    private final Pack clinic = clinic();

    private static Pack clinic() {
      return new PackSketch("textbook/chest-clinic")
          .history("asia", 0.01, 1, 0)
          .history("smoke", 0.5, 1, 0)
          .prior("tub", 0.0104)
          .after("tub", "asia", odds(0.05) / odds(0.01))
          .prior("lung", 0.055)
          .after("lung", "smoke", odds(0.1) / odds(0.01))
          .prior("bronc", 0.45)
          .after("bronc", "smoke", odds(0.6) / odds(0.3))
          .any("either", cause("tub", 1), cause("lung", 1))
          .symptom("dysp", dysp(), 0.5)
          .step(new StepSketch("xray").looksAt(new EventId("either"), 0.98, 0.05))
          .build();
    }

    private static double odds(double p) {
      return p / (1 - p);
    }

    private static Observation dysp() {
      Map<List<Boolean>, List<Chance>> rows = new LinkedHashMap<>();
      rows.put(List.of(true, true), List.of(chance(0.9), chance(0.1)));
      rows.put(List.of(true, false), List.of(chance(0.8), chance(0.2)));
      rows.put(List.of(false, true), List.of(chance(0.7), chance(0.3)));
      rows.put(List.of(false, false), List.of(chance(0.1), chance(0.9)));
      return new Observation.OfTable(
          List.of(id("bronc"), new EventId("either")),
          List.of(OutcomeId.POSITIVE, OutcomeId.NEGATIVE),
          rows);
    }

    private void holds(Belief belief, double tub, double lung, double bronc) {
      assertThat(belief.p(id("tub"))).isEqualTo(tub, AS_PRINTED);
      assertThat(belief.p(id("lung"))).isEqualTo(lung, AS_PRINTED);
      assertThat(belief.p(id("bronc"))).isEqualTo(bronc, AS_PRINTED);
    }

    private final Fact asia = said("asia", true);
    private final Fact smoke = said("smoke", true);
    private final Fact dysp = symptom("dysp", SymptomValue.PRESENT);
    private final Fact xray = outcome("xray", "positive");
    private final Fact noXray = outcome("xray", "negative");

    @Test
    void priorsAreThePublishedOnes_whenNothingIsKnown() {
      Belief belief = belief(clinic);
      holds(belief, 0.0104, 0.055, 0.45);
      assertThat(belief.p(new EventId("either"))).isEqualTo(0.064828, AS_PRINTED);
      assertThat(belief.outcomes(new org.faultwright.pack.StepId("xray")).get(OutcomeId.POSITIVE))
          .isEqualTo(0.11029004, AS_PRINTED);
      assertThat(Math.exp(belief(clinic, dysp).logPEvidence())).isEqualTo(0.4359706, AS_PRINTED);
    }

    @Test
    void posteriorsAreThePublishedOnes_whenAsiaAndDyspnoea() {
      Belief belief = belief(clinic, asia, dysp);
      assertThat(Math.exp(belief.logPEvidence())).isEqualTo(0.004501375, AS_PRINTED);
      holds(belief, 0.08775096, 0.09952515, 0.81140207);
      assertThat(belief.p(new EventId("either"))).isEqualTo(0.18229985, AS_PRINTED);
      assertThat(belief.outcomes(new org.faultwright.pack.StepId("xray")).get(OutcomeId.POSITIVE))
          .isEqualTo(0.21953886, AS_PRINTED);
    }

    @Test
    void posteriorsAreThePublishedOnes_whenMoreOrLessIsKnown() {
      holds(belief(clinic, asia, dysp, smoke), 0.07275954, 0.14551908, 0.86725821);
      holds(belief(clinic, asia, dysp, noXray), 0.0022487, 0.00255042, 0.86276077);
      holds(belief(clinic, asia, dysp, xray), 0.39171172, 0.44427051, 0.62882178);
      holds(belief(clinic, dysp), 0.01884531, 0.10275922, 0.83396734);
      holds(belief(clinic, xray), 0.09241088, 0.4887114, 0.50632616);
    }

    @Test
    void evidenceIsCalledImpossible_whenAKnownCauseHasNoEffect() {
      Pack pack =
          new PackSketch("textbook/impossible")
              .prior("tub", 0.0104)
              .prior("lung", 0.055)
              .any("either", cause("tub", 1), cause("lung", 1))
              .step(reveals("tub-seen", id("tub")))
              .step(reveals("either-seen", new EventId("either")))
              .build();
      BeliefResult result =
          ((CompiledPack) CompiledPack.compile(pack))
              .belief(told(outcome("tub-seen", "positive"), outcome("either-seen", "negative")));
      assertThat(result).isInstanceOf(BeliefResult.ImpossibleEvidence.class);
      assertThat(((BeliefResult.ImpossibleEvidence) result).clash()).hasSize(2);
    }
  }

  /**
   * The burglar alarm. J. Pearl, Probabilistic Reasoning in Intelligent Systems, 1988; S. Russell,
   * P. Norvig, Artificial Intelligence: A Modern Approach. Values from memory, recomputed.
   *
   * <p>The alarm's table is said as an event of "both", "burglary alone" and "earthquake alone"
   * with {@code otherwise} 0.001, where a strength s gives 1 - (1-s)(1-0.001).
   */
  @Nested
  class BurglarAlarm {
    private static final Offset<Double> AS_PRINTED = within(1e-9);
    private final Pack alarm = alarm();

    private static Pack alarm() {
      Event.Combination all = new Event.Combination.All();
      Event.Combination none = new Event.Combination.None();
      return new PackSketch("textbook/alarm")
          .prior("burglary", 0.001)
          .prior("earthquake", 0.002)
          .event("no-burglary", none, 0, cause("burglary", 1))
          .event("no-earthquake", none, 0, cause("earthquake", 1))
          .event("both", all, 0, cause("burglary", 1), cause("earthquake", 1))
          .event("burglary-alone", all, 0, cause("burglary", 1), event("no-earthquake", 1))
          .event("earthquake-alone", all, 0, cause("earthquake", 1), event("no-burglary", 1))
          .event(
              "alarm",
              new Event.Combination.Any(),
              0.001,
              event("both", 1 - 0.05 / 0.999),
              event("burglary-alone", 1 - 0.06 / 0.999),
              event("earthquake-alone", 1 - 0.71 / 0.999))
          .step(new StepSketch("john-calls").looksAt(new EventId("alarm"), 0.9, 0.05))
          .step(new StepSketch("mary-calls").looksAt(new EventId("alarm"), 0.7, 0.01))
          .step(reveals("alarm-seen", new EventId("alarm")))
          .step(reveals("burglary-seen", id("burglary")))
          .step(reveals("earthquake-seen", id("earthquake")))
          .build();
    }

    private final Fact john = outcome("john-calls", "positive");
    private final Fact mary = outcome("mary-calls", "positive");
    private final Fact rings = outcome("alarm-seen", "positive");
    private final Fact quake = outcome("earthquake-seen", "positive");
    private final Fact noQuake = outcome("earthquake-seen", "negative");
    private final Fact noBurglary = outcome("burglary-seen", "negative");

    @Test
    void posteriorsAreThePublishedOnes_whenNeighboursCall() {
      Belief both = belief(alarm, john, mary);
      assertThat(both.p(id("burglary"))).isEqualTo(0.284171835, AS_PRINTED);
      assertThat(both.p(id("earthquake"))).isEqualTo(0.176066838, AS_PRINTED);
      assertThat(both.p(new EventId("alarm"))).isEqualTo(0.760692039, AS_PRINTED);
      assertThat(belief(alarm, john).p(id("burglary"))).isEqualTo(0.01628373, AS_PRINTED);
    }

    @Test
    void jointProbabilityIsThePublishedOne_whenEverythingIsKnown() {
      Belief belief = belief(alarm, john, mary, rings, noBurglary, noQuake);
      assertThat(Math.exp(belief.logPEvidence())).isEqualTo(6.2811126e-4, within(1e-11));
    }

    @Test
    void burglaryIsExplainedAway_whenAnEarthquakeIsKnown() {
      assertThat(belief(alarm, rings).p(id("burglary"))).isEqualTo(0.373551228, AS_PRINTED);
      assertThat(belief(alarm, rings, quake).p(id("burglary"))).isEqualTo(0.003268424, AS_PRINTED);
    }
  }

  /**
   * Base rates. Each value recomputed from its formula; questions from memory: W. Casscells, A.
   * Schoenberger, T. Graboys, NEJM 299, 1978, 999-1001; D. Eddy in D. Kahneman, P. Slovic, A.
   * Tversky (eds.), Judgment under Uncertainty, 1982, and its form in frequencies by G. Gigerenzer;
   * A. Tversky and D. Kahneman's cab.
   */
  @ParameterizedTest
  @CsvSource({
    "0.001, 1,    0.05,  0.0196271",
    "0.01,  0.8,  0.096, 0.0776398",
    "0.01,  0.9,  0.09,  0.0917431",
    "0.15,  0.8,  0.2,   0.4137931"
  })
  void posteriorMindsTheBaseRate_whenOneTestIsPositive(
      double prior, double catches, double criesWolf, double posterior) {
    Pack pack =
        new PackSketch("textbook/base-rate")
            .prior("it", prior)
            .step(new StepSketch("test").looksAt(id("it"), catches, criesWolf))
            .build();
    assertThat(belief(pack, outcome("test", "positive")).p(id("it")))
        .isEqualTo(posterior, within(1e-7));
  }

  /** Counting a test twice: prior 0.1, likelihood ratio 9 gives 0.5; a repeat adds nothing. */
  @Test
  void repeatedTestCountsOnce_whenNothingWasChanged() {
    Pack pack =
        new PackSketch("textbook/twice")
            .prior("it", 0.1)
            .step(new StepSketch("test").looksAt(id("it"), 0.9, 0.1))
            .build();
    Fact positive = outcome("test", "positive");
    assertThat(belief(pack, positive).p(id("it"))).isEqualTo(0.5, within(1e-15));
    assertThat(belief(pack, positive, positive).p(id("it"))).isEqualTo(0.5, within(1e-15));
  }

  /**
   * Noisy-or with findings that are absent and present: D. Heckerman, "A tractable inference
   * algorithm for diagnosing multiple diseases", UAI 1989 (formula from memory); numbers by
   * enumeration and by inclusion and exclusion.
   */
  @Nested
  class NoisyOr {
    private static final Offset<Double> EXACT = within(1e-10);
    private final Fact f1 = outcome("f1", "positive");
    private final Fact f2 = outcome("f2", "positive");
    private final Fact noF3 = outcome("f3", "negative");

    private static PackSketch diseases() {
      return new PackSketch("textbook/diseases")
          .prior("d1", 0.01)
          .prior("d2", 0.02)
          .prior("d3", 0.05);
    }

    private void holds(Pack pack) {
      Belief belief = belief(pack, f1, f2, noF3);
      assertThat(Math.exp(belief.logPEvidence())).isEqualTo(0.00869963127264, within(1e-14));
      assertThat(belief.p(id("d1"))).isEqualTo(0.0045727576, EXACT);
      assertThat(belief.p(id("d2"))).isEqualTo(0.9586491638, EXACT);
      assertThat(belief.p(id("d3"))).isEqualTo(0.0536773303, EXACT);
    }

    /** A rate is P(positive with this cause alone): 1 - P(absent | none) x inhibitor. */
    @Test
    void posteriorsEqualTheSum_whenFindingsAreTestsOfSeveralCauses() {
      holds(
          diseases()
              .step(new StepSketch("f1").shows(several(0.99, cause("d1", 0.2), cause("d2", 0.4))))
              .step(new StepSketch("f2").shows(several(0.98, cause("d2", 0.3), cause("d3", 0.5))))
              .step(new StepSketch("f3").shows(several(1, cause("d1", 0.1), cause("d3", 0.6))))
              .build());
    }

    private static Observation several(double pAbsent, PackSketch.Input... inhibitors) {
      Map<NodeId, Chance> rates = new LinkedHashMap<>();
      for (PackSketch.Input input : inhibitors) {
        rates.put(input.node(), chance(1 - pAbsent * input.strength()));
      }
      return new Observation.OfNodes(
          rates, chance(1 - pAbsent), OutcomeId.POSITIVE, OutcomeId.NEGATIVE);
    }

    @Test
    void posteriorsEqualTheSum_whenFindingsAreEventsThatAreSeen() {
      Event.Combination any = new Event.Combination.Any();
      holds(
          diseases()
              .event("e1", any, 0.01, cause("d1", 0.8), cause("d2", 0.6))
              .event("e2", any, 0.02, cause("d2", 0.7), cause("d3", 0.5))
              .event("e3", any, 0, cause("d1", 0.9), cause("d3", 0.4))
              .step(reveals("f1", new EventId("e1")))
              .step(reveals("f2", new EventId("e2")))
              .step(reveals("f3", new EventId("e3")))
              .build());
    }

    /** The textbook's fever table; inhibitors 0.6, 0.2, 0.1 from memory, recomputed. */
    @ParameterizedTest
    @CsvSource({
      "negative, negative, negative, 0",
      "negative, negative, positive, 0.9",
      "negative, positive, negative, 0.8",
      "negative, positive, positive, 0.98",
      "positive, negative, negative, 0.4",
      "positive, negative, positive, 0.94",
      "positive, positive, negative, 0.88",
      "positive, positive, positive, 0.988"
    })
    void feverFollowsItsTable_whenCausesAreKnown(
        String cold, String flu, String malaria, double pFever) {
      Pack pack =
          new PackSketch("textbook/fever")
              .prior("cold", 0.5)
              .prior("flu", 0.5)
              .prior("malaria", 0.5)
              .any("fever", cause("cold", 0.4), cause("flu", 0.8), cause("malaria", 0.9))
              .step(reveals("see-cold", id("cold")))
              .step(reveals("see-flu", id("flu")))
              .step(reveals("see-malaria", id("malaria")))
              .build();
      Belief belief =
          belief(
              pack,
              outcome("see-cold", cold),
              outcome("see-flu", flu),
              outcome("see-malaria", malaria));
      assertThat(belief.p(new EventId("fever"))).isEqualTo(pFever, within(1e-15));
    }
  }
}
