package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.TooManyWorldsException;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;

/** What a compiled pack believes equals the sum over all worlds. Oracle: enumeration. */
class BeliefProperty {

  /** Sums of at most {@link #MOST_WORLDS} products of doubles, divided. */
  private static final Offset<Double> EXACT = within(1e-10);

  private static final Offset<Double> EXACT_LOG = within(1e-9);
  private static final long MOST_WORLDS = 4_000;

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  @Provide
  Arbitrary<Situation> withoutAttempts() {
    return RandomCases.situations(PackFeature.withoutAttempts());
  }

  @Provide
  Arbitrary<Situation> withFewFeatures() {
    return RandomCases.smallSituations(PackFeature.all(), 5);
  }

  /** Little else than attempts, so that their rarer effects meet: hiding, coming back, harm. */
  @Provide
  Arbitrary<Situation> mostlyRepaired() {
    return RandomCases.situations(
        Set.of(
            PackFeature.REPAIRS,
            PackFeature.HIDES,
            PackFeature.REPEATABLE,
            PackFeature.SWAPS,
            PackFeature.HARMS,
            PackFeature.FOLLOWS,
            PackFeature.GROUPS,
            PackFeature.COMES_AND_GOES));
  }

  @Property(tries = 300)
  void beliefEqualsEnumeration_whenMuchIsRepaired(@ForAll("mostlyRepaired") Situation s) {
    holds(s);
  }

  @Property(tries = 200)
  void beliefEqualsEnumeration_whenPacksHaveEveryFeature(@ForAll("situations") Situation s) {
    holds(s);
  }

  @Property(tries = 150)
  void beliefEqualsEnumeration_whenNothingIsRepaired(@ForAll("withoutAttempts") Situation s) {
    holds(s);
  }

  @Property(tries = 150)
  void beliefEqualsEnumeration_whenPacksHaveFewFeatures(@ForAll("withFewFeatures") Situation s) {
    holds(s);
  }

  /** Features that contradict each other often, so that many of the situations are impossible. */
  @Provide
  Arbitrary<Situation> contradictory() {
    return RandomCases.smallSituations(
            Set.of(
                PackFeature.EXTREMES,
                PackFeature.SYMPTOMS,
                PackFeature.HISTORY,
                PackFeature.COMPLAINTS,
                PackFeature.GROUPS,
                PackFeature.REPAIRS),
            6)
        .filter(s -> s.enumerator(MOST_WORLDS).isImpossible());
  }

  @Property(tries = 60)
  void clashIsASmallestOne_whenEvidenceIsImpossible(@ForAll("contradictory") Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    BeliefResult result = compiled.belief(s.facts());
    assertThat(result).isInstanceOf(BeliefResult.ImpossibleEvidence.class);
    Set<FactId> clash = ((BeliefResult.ImpossibleEvidence) result).clash();
    assertThat(clash).isNotEmpty();
    assertThat(isImpossible(s, clash)).as("impossible: %s", clash).isTrue();
    for (FactId one : clash) {
      Set<FactId> fewer = new LinkedHashSet<>(clash);
      fewer.remove(one);
      assertThat(isImpossible(s, fewer)).as("impossible without %s: %s", one, fewer).isFalse();
    }
  }

  /** Whether these facts cannot hold together; attempts were made in any case. */
  private static boolean isImpossible(Situation s, Set<FactId> facts) {
    List<Told> some =
        s.facts().stream()
            .filter(t -> facts.contains(t.id()) || t.fact() instanceof Fact.StepDone)
            .toList();
    return WorldEnumerator.of(s.pack(), some).withMostWorlds(MOST_WORLDS).isImpossible();
  }

  private static void holds(Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    BeliefResult result = compiled.belief(s.facts());
    WorldEnumerator worlds = s.enumerator(MOST_WORLDS);
    try {
      double pEvidence = worlds.pEvidence();
      if (pEvidence == 0) {
        assertThat(result).isInstanceOf(BeliefResult.ImpossibleEvidence.class);
        return;
      }
      Assume.that(!(result instanceof BeliefResult.OverBudget));
      assertThat(result).isInstanceOf(Belief.class);
      Belief belief = (Belief) result;
      assertThat(belief.logPEvidence()).isEqualTo(Math.log(pEvidence), EXACT_LOG);
      holdsNow(s, belief, worlds);
      predicts(s, belief, worlds);
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  private static void holdsNow(Situation s, Belief belief, WorldEnumerator worlds) {
    for (CauseId cause : s.pack().causes().keySet()) {
      assertThat(belief.p(cause)).as("%s", cause).isEqualTo(worlds.p(cause), EXACT);
    }
    for (EventId event : s.pack().events().keySet()) {
      assertThat(belief.p(event)).as("%s", event).isEqualTo(worlds.p(event), EXACT);
    }
    for (ComplaintId complaint : s.pack().complaints().keySet()) {
      assertThat(belief.pLost(complaint)).isEqualTo(worlds.pLostAtRest(complaint), EXACT);
      assertThat(belief.pComesBack(complaint)).isEqualTo(worlds.pComesBack(complaint), EXACT);
    }
    for (HistoryId history : s.pack().histories().keySet()) {
      assertThat(belief.p(history)).as("%s", history).isEqualTo(worlds.p(history), EXACT);
    }
  }

  private static void predicts(Situation s, Belief belief, WorldEnumerator worlds) {
    for (Step step : s.pack().steps().values()) {
      if (step.shows().isPresent()) {
        var expected = worlds.outcomes(step.id());
        var outcomes = belief.outcomes(step.id());
        assertThat(outcomes.keySet()).containsExactlyElementsOf(step.shows().get().outcomes());
        for (OutcomeId outcome : outcomes.keySet()) {
          assertThat(outcomes.get(outcome))
              .as("%s of %s", outcome, step.id())
              .isEqualTo(expected.getOrDefault(outcome, 0.0), EXACT);
        }
      }
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        var expected = worlds.states(point.id());
        var states = belief.states(point.id());
        for (StateId state : states.keySet()) {
          assertThat(states.get(state))
              .as("%s at %s", state, point.id())
              .isEqualTo(expected.getOrDefault(state, 0.0), EXACT);
        }
      }
    }
  }
}
