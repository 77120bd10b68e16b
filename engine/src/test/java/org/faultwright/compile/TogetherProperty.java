package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.TooManyWorldsException;
import org.faultwright.pack.CauseId;

/**
 * Causes present together, the likeliest sets of them, and how well facts agree. Oracle:
 * enumeration.
 */
class TogetherProperty {

  private static final Offset<Double> ROUNDING = within(1e-9);
  private static final int MOST_WORLDS = 4_000;

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  private static Belief belief(Situation s) {
    BeliefResult result = ((CompiledPack) CompiledPack.compile(s.pack())).belief(s.facts());
    Assume.that(result instanceof Belief);
    return (Belief) result;
  }

  private static Map<Set<CauseId>, Double> sets(Situation s) {
    try {
      return s.enumerator(MOST_WORLDS).sets();
    } catch (TooManyWorldsException e) {
      Assume.that(false);
      return Map.of();
    }
  }

  @Property(tries = 100)
  void bothPresentIsAsLikelyAsEnumerated_forAnyTwoCauses(@ForAll("situations") Situation s) {
    Belief belief = belief(s);
    Map<Set<CauseId>, Double> sets = sets(s);
    List<CauseId> causes = List.copyOf(s.pack().causes().keySet());
    for (CauseId a : causes) {
      for (CauseId b : causes) {
        double p =
            sets.entrySet().stream()
                .filter(e -> e.getKey().contains(a) && e.getKey().contains(b))
                .mapToDouble(Map.Entry::getValue)
                .sum();
        assertThat(belief.pBoth(a, b)).as("%s and %s", a, b).isCloseTo(p, ROUNDING);
      }
    }
  }

  @Property(tries = 100)
  void likeliestSetsAreThoseOfEnumeration_inTheirOrder(@ForAll("situations") Situation s) {
    Belief belief = belief(s);
    Map<Set<CauseId>, Double> sets = sets(s);
    Explanations found = belief.explanations(7);
    assertThat(found.isExact()).isTrue();
    List<Double> expected =
        sets.values().stream()
            .filter(p -> p > 1e-12)
            .sorted(Comparator.reverseOrder())
            .limit(7)
            .toList();
    assertThat(found.sets()).hasSizeGreaterThanOrEqualTo(expected.size());
    for (int i = 0; i < expected.size(); i++) {
      Explanations.Explanation e = found.sets().get(i);
      assertThat(e.p()).isCloseTo(expected.get(i), ROUNDING);
      assertThat(sets.getOrDefault(e.causes(), 0.0)).isCloseTo(e.p(), ROUNDING);
    }
    assertThat(found.sets().stream().map(Explanations.Explanation::causes)).doesNotHaveDuplicates();
  }

  @Provide
  Arbitrary<Situation> withoutAttempts() {
    return RandomCases.situations(PackFeature.withoutAttempts());
  }

  @Property(tries = 100)
  void conflictIsThatOfTheEnumeratedProbabilities_withAndWithoutEachFact(
      @ForAll("withoutAttempts") Situation s) {
    Belief belief = belief(s);
    Conflict conflict = belief.conflict();
    try {
      double all = Math.log(pEvidence(s, s.plainFacts()));
      double measure = -all;
      for (Conflict.Expected e : conflict.facts()) {
        double alone = Math.log(pEvidence(s, List.of(e.told().fact())));
        double rest =
            Math.log(
                pEvidence(
                    s,
                    s.facts().stream().filter(t -> !t.equals(e.told())).map(Told::fact).toList()));
        assertThat(e.logPAlone()).isCloseTo(alone, ROUNDING);
        assertThat(e.logPGivenRest()).isCloseTo(all - rest, ROUNDING);
        if (!e.predicted().isEmpty()) {
          assertThat(e.predicted().values().stream().mapToDouble(p -> p).sum())
              .isCloseTo(1, ROUNDING);
        }
        measure += alone;
      }
      assertThat(conflict.measure())
          .isCloseTo(conflict.facts().size() < 2 ? 0 : measure, within(1e-8));
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  private static double pEvidence(Situation s, List<Fact> facts) {
    return s.with(facts).enumerator(MOST_WORLDS).pEvidence();
  }
}
