package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.faultwright.oracle.PackSketch.cause;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.StepSketch;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.SymptomValue;
import org.junit.jupiter.api.Test;

/** Oracle: the pack with one number moved, enumerated. */
class SensitivityTest {

  private static final CauseId A = new CauseId("a");
  private static final CauseId B = new CauseId("b");

  // places of the numbers
  private static final int PRIOR_A = 0;
  private static final int PRIOR_B = 1;
  private static final int PRIOR_C = 2;
  private static final int PRIOR_D = 3;
  private static final int MISTAKE = 4;
  private static final int CATCHES = 5;
  private static final int CRIES_WOLF = 6;
  private static final int SYMPTOM_CATCHES = 7;
  private static final int SYMPTOM_CRIES_WOLF = 8;
  private static final int SAID_CATCHES = 9;
  private static final int SAID_CRIES_WOLF = 10;
  private static final double[] STATED = {
    .04, .03, .02, .01, .05, .9, .1, .8, .15, .7, .2,
  };

  private static final List<Told> FACTS =
      Facts.told(
          Facts.reported("lost"),
          Facts.outcome("look", "positive"),
          Facts.outcome("second-look", "negative"),
          Facts.symptom("smell", SymptomValue.ABSENT),
          Facts.said("dropped", true));

  /** Two tests look at one event, so that the weights of its states are products. */
  private static Pack pack(double[] n) {
    return new PackSketch("invented/sensitive")
        .history("dropped", .2, n[SAID_CATCHES], n[SAID_CRIES_WOLF])
        .prior("a", n[PRIOR_A])
        .after("a", "dropped", 5)
        .prior("b", n[PRIOR_B])
        .prior("c", n[PRIOR_C])
        .prior("d", n[PRIOR_D])
        .oneOf("either", false, "c", "d")
        .any("seen", cause("a", .9), cause("c", .5))
        .any("top", cause("a", 1), cause("b", .8), cause("c", 1), cause("d", 1))
        .complaint("lost", "top", n[MISTAKE], .05)
        .symptom(
            "smell",
            new Observation.OfNode(
                B,
                PackSketch.chance(n[SYMPTOM_CATCHES]),
                PackSketch.chance(n[SYMPTOM_CRIES_WOLF]),
                new OutcomeId("yes"),
                new OutcomeId("no")),
            .3)
        .step(new StepSketch("look").looksAt(new EventId("seen"), n[CATCHES], n[CRIES_WOLF]))
        .step(new StepSketch("second-look").looksAt(new EventId("seen"), .7, .3))
        .build();
  }

  private static Sensitivity sensitivity(CauseId cause) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(pack(STATED));
    return ((Belief) compiled.belief(FACTS)).sensitivity(cause);
  }

  private static double enumerated(int place, double value, CauseId cause) {
    double[] moved = STATED.clone();
    moved[place] = value;
    return WorldEnumerator.of(pack(moved), FACTS).p(cause);
  }

  private static Optional<Integer> place(Sensitivity.Number number) {
    if (number instanceof Sensitivity.Number.PriorOf p) {
      return Optional.of(List.of("a", "b", "c", "d").indexOf(p.cause().value()));
    } else if (number instanceof Sensitivity.Number.CriesWolf w) {
      int[] places = {MISTAKE, CRIES_WOLF, -1, SYMPTOM_CRIES_WOLF, SAID_CRIES_WOLF};
      return Optional.of(places[FACTS.indexOf(w.told())]).filter(i -> i >= 0);
    }
    int[] places = {-1, CATCHES, -1, SYMPTOM_CATCHES, SAID_CATCHES};
    Sensitivity.Number.Catches c = (Sensitivity.Number.Catches) number;
    return Optional.of(places[FACTS.indexOf(c.told())]).filter(i -> i >= 0);
  }

  /** A central difference with this step is good to some 1e-7 of slopes of order 1. */
  private static final double STEP = 1e-5;

  @Test
  void everySlopeIsAFiniteDifference_ofTheEnumeratedPosterior() {
    boolean[] seen = new boolean[STATED.length];
    for (CauseId cause : List.of(A, B)) {
      for (Sensitivity.Influence i : sensitivity(cause).numbers()) {
        place(i.number())
            .ifPresent(
                place -> {
                  seen[place] = true;
                  assertThat(i.value()).isCloseTo(STATED[place], within(1e-12));
                  double slope =
                      (enumerated(place, STATED[place] + STEP, cause)
                              - enumerated(place, STATED[place] - STEP, cause))
                          / (2 * STEP);
                  assertThat(i.slope())
                      .as("%s", i.number())
                      .isCloseTo(slope, within(1e-5 * (1 + Math.abs(slope))));
                });
      }
    }
    assertThat(seen).as("%s", Arrays.toString(seen)).doesNotContain(false);
  }

  @Test
  void anotherCauseIsAsLikely_whereANumberTurnsTheOrder() {
    List<Sensitivity.Influence> numbers = sensitivity(A).numbers();
    int turns = 0;
    for (Sensitivity.Influence i : numbers) {
      if (place(i.number()).isEmpty()) {
        continue;
      }
      int place = place(i.number()).get();
      for (Optional<Sensitivity.Turn> turn : List.of(i.below(), i.above())) {
        if (turn.isPresent()) {
          turns++;
          double at = turn.get().at();
          assertThat(enumerated(place, at, A))
              .as("%s at %s", i.number(), at)
              .isCloseTo(enumerated(place, at, turn.get().leads()), within(1e-7));
        }
      }
    }
    assertThat(turns).isGreaterThanOrEqualTo(4);
    // by hand: with a as rare as nothing else it cannot lead
    assertThat(numbers)
        .filteredOn(i -> i.number().equals(new Sensitivity.Number.PriorOf(A)))
        .singleElement()
        .satisfies(i -> assertThat(i.below()).isPresent());
  }

  @Test
  void numbersThatTurnTheOrderSoonestComeFirst() {
    List<Double> margins =
        sensitivity(A).numbers().stream().map(Sensitivity.Influence::margin).toList();
    assertThat(margins).isSorted();
    assertThat(margins.get(0)).isBetween(0.01, 5.0);
  }
}
