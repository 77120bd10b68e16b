package org.faultwright.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;

/** The enumerator agrees with itself where two ways lead to the same number. */
class WorldEnumeratorProperty {

  private static final long MOST_WORLDS = 20_000;
  private static final long MOST_IN_A_PLAIN_PRODUCT = 4_096;

  record Situation(Pack pack, List<Told> facts) {
    WorldEnumerator enumerator() {
      return new WorldEnumerator(pack, Priors.stated(pack), facts, new ModelledReadings(pack))
          .withMostWorlds(MOST_WORLDS);
    }

    Situation and(Fact fact) {
      List<Fact> all = new ArrayList<>(facts.stream().map(Told::fact).toList());
      all.add(fact);
      return new Situation(pack, Facts.told(all));
    }
  }

  @Provide
  Arbitrary<Situation> situations() {
    return Arbitraries.randomValue(
        random -> {
          SplittableRandom own = new SplittableRandom(random.nextLong());
          Pack pack = RandomPacks.draw(own, PackFeature.all());
          return new Situation(pack, RandomCases.draw(own, pack, 7));
        });
  }

  /** A few features at a time, so that the plain product stays small. */
  @Provide
  Arbitrary<Situation> tinySituations() {
    return Arbitraries.randomValue(
        random -> {
          SplittableRandom own = new SplittableRandom(random.nextLong());
          List<PackFeature> few = new Dice(own, Set.of()).someOf(List.of(PackFeature.values()), 4);
          Pack pack = RandomPacks.draw(own, Set.copyOf(few));
          return new Situation(pack, RandomCases.draw(own, pack, 5));
        });
  }

  /** What is left out because it does not matter sums to 1 in the plain product. */
  @Property(tries = 400)
  void lazyWorldsEqualThePlainProduct_whenThePackIsTiny(@ForAll("tinySituations") Situation s) {
    WorldEnumerator worlds = s.enumerator().withMostWorlds(MOST_IN_A_PLAIN_PRODUCT);
    Map<Set<CauseId>, Double> plain;
    try {
      plain = worlds.jointByPlainProduct(World::present);
    } catch (EveryPath.TooManyPathsException e) {
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
      pEvidence = s.enumerator().pEvidence();
      Assume.that(pEvidence > 0);
      for (Step step : s.pack().steps().values()) {
        if (step.shows().isPresent()) {
          double sum = 0;
          Map<OutcomeId, Double> predicted = s.enumerator().outcomes(step.id());
          for (OutcomeId outcome : step.shows().get().outcomes()) {
            double p = s.and(new Fact.OutcomeSeen(step.id(), outcome)).enumerator().pEvidence();
            sum += p;
            assertThat(predicted.getOrDefault(outcome, 0.0))
                .isEqualTo(p / pEvidence, within(1e-10));
          }
          assertThat(sum / pEvidence).isEqualTo(1, within(1e-10));
        }
      }
    } catch (EveryPath.TooManyPathsException e) {
      Assume.that(false);
    }
  }
}
