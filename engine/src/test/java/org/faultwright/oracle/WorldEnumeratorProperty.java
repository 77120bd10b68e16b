package org.faultwright.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Step;

/** The enumerator agrees with itself where two ways lead to the same number. */
class WorldEnumeratorProperty {

  private static final long MOST_WORLDS = 4_000;
  private static final long MOST_IN_A_PLAIN_PRODUCT = 4_096;

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  @Provide
  Arbitrary<Situation> tinySituations() {
    return RandomCases.smallSituations(PackFeature.all(), 4);
  }

  /** What is left out because it does not matter sums to 1 in the plain product. */
  @Property(tries = 400)
  void lazyWorldsEqualThePlainProduct_whenThePackIsTiny(@ForAll("tinySituations") Situation s) {
    WorldEnumerator worlds = s.enumerator(MOST_IN_A_PLAIN_PRODUCT);
    Map<Set<CauseId>, Double> plain;
    try {
      plain = worlds.jointByPlainProduct(World::present);
    } catch (TooManyWorldsException e) {
      Assume.that(false);
      return;
    }
    Map<Set<CauseId>, Double> lazy = worlds.joint(World::present);
    assertThat(lazy.keySet()).isEqualTo(plain.keySet());
    lazy.forEach((set, p) -> assertThat(p).isEqualTo(plain.get(set), within(1e-14 + 1e-11 * p)));
  }

  /** P(e) = sum over outcomes y of P(e and y), and P(y | e) = P(e and y) / P(e). */
  @Property(tries = 150)
  void outcomesShareTheEvidence_whenAStepIsCarriedOutNext(@ForAll("situations") Situation s) {
    double pEvidence;
    try {
      pEvidence = s.enumerator(MOST_WORLDS).pEvidence();
      Assume.that(pEvidence > 0);
      for (Step step : s.pack().steps().values()) {
        if (step.shows().isPresent()) {
          double sum = 0;
          Map<OutcomeId, Double> predicted = s.enumerator(MOST_WORLDS).outcomes(step.id());
          for (OutcomeId outcome : step.shows().get().outcomes()) {
            double p = pWith(s, new Fact.OutcomeSeen(step.id(), outcome));
            sum += p;
            assertThat(predicted.getOrDefault(outcome, 0.0))
                .isEqualTo(p / pEvidence, within(1e-10));
          }
          assertThat(sum / pEvidence).isEqualTo(1, within(1e-10));
        }
      }
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  private static double pWith(Situation s, Fact more) {
    List<Fact> all = new ArrayList<>(s.plainFacts());
    all.add(more);
    return s.with(all).enumerator(MOST_WORLDS).pEvidence();
  }
}
