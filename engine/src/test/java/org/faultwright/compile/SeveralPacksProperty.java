package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.assertj.core.data.Offset;
import org.faultwright.oracle.Answers;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.PackSplit;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.TooManyWorldsException;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.merge.MergedPacks;
import org.faultwright.pack.merge.PackMerge;
import org.junit.jupiter.api.Test;

/** Several packs at once are one pack: what they share counts once, and the joint is exact. */
class SeveralPacksProperty {

  private static final Offset<Double> EXACT = within(1e-10);
  private static final long MOST_WORLDS = 4_000;

  private static Pack together(Pack... packs) {
    return ((MergedPacks.Whole) PackMerge.of(List.of(packs))).pack();
  }

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  /** A pack is split at random in two that overlap; together they are the pack. Enumeration. */
  @Property(tries = 150)
  void beliefIsThatOfTheWhole_whenAPackIsSplitInTwo(
      @ForAll("situations") Situation s, @ForAll long seed) {
    List<Pack> halves = PackSplit.of(s.pack(), new SplittableRandom(seed));
    MergedPacks merged = PackMerge.of(halves);
    assertThat(merged.differences()).isEmpty();
    Pack whole = ((MergedPacks.Whole) merged).pack();
    assertThat(whole.causes().keySet())
        .containsExactlyInAnyOrderElementsOf(s.pack().causes().keySet());
    CompiledAnswers belief = CompiledAnswers.of(whole, s.facts());
    Assume.that(!(belief.result() instanceof BeliefResult.OverBudget));
    WorldEnumerator worlds = s.enumerator(MOST_WORLDS);
    try {
      assertThat(belief.isImpossible()).isEqualTo(worlds.isImpossible());
      Assume.that(!worlds.isImpossible());
      assertThat(belief.pEvidence()).isEqualTo(worlds.pEvidence(), EXACT);
      for (CauseId cause : s.pack().causes().keySet()) {
        assertThat(belief.p(cause)).as("%s", cause).isEqualTo(worlds.p(cause), EXACT);
      }
      for (EventId event : s.pack().events().keySet()) {
        assertThat(belief.p(event)).as("%s", event).isEqualTo(worlds.p(event), EXACT);
      }
      for (Step step : s.pack().steps().values()) {
        if (step.shows().isPresent()) {
          Map<OutcomeId, Double> expected = worlds.outcomes(step.id());
          belief
              .outcomes(step.id())
              .forEach((o, p) -> assertThat(p).isEqualTo(expected.getOrDefault(o, 0.0), EXACT));
        }
      }
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  private static PackSketch power() {
    return new PackSketch("finch-handset/power")
        .share("rail-shorted", "dead", 0.2)
        .share("cell-flat", "dead", 0.7)
        .share("unlisted", "dead", 0.1)
        .any(
            "no-power",
            PackSketch.cause("rail-shorted", 1),
            PackSketch.cause("cell-flat", 0.9),
            PackSketch.cause("unlisted", 1))
        .complaint("dead", "no-power", 0, 0.05);
  }

  private static PackSketch sound() {
    return new PackSketch("finch-handset/sound")
        .share("rail-shorted", "silent", 0.1)
        .share("speaker-worn", "silent", 0.6)
        .share("unlisted", "silent", 0.3)
        .any(
            "no-sound",
            PackSketch.cause("rail-shorted", 0.8),
            PackSketch.cause("speaker-worn", 1),
            PackSketch.cause("unlisted", 1))
        .complaint("silent", "no-sound", 0, 0.08);
  }

  /**
   * The first pack's word on the shared cause counts, so the shares of its complaint come out; the
   * other causes of the second share the rest of its complaint in their proportions, 6 to 3.
   */
  @Test
  void sharesOfTheFirstPackComeOut_whenBothHaveASharedCause() {
    Pack both = together(power().build(), sound().build());
    CauseId rail = new CauseId("rail-shorted");
    Answers dead = CompiledAnswers.of(both, Facts.told(Facts.reported("dead")));
    CauseId other = new CauseId("unlisted-in-power");
    assertThat(dead.p(rail) / dead.p(other)).isEqualTo(2, within(1e-9));
    assertThat(dead.p(new CauseId("cell-flat")) / dead.p(other)).isEqualTo(7, within(1e-9));
    assertThat(dead.pEvidence()).isEqualTo(0.05, within(1e-9));
    Answers silent = CompiledAnswers.of(both, Facts.told(Facts.reported("silent")));
    assertThat(silent.pEvidence()).isEqualTo(0.08, within(1e-9));
    assertThat(silent.p(new CauseId("speaker-worn")) / silent.p(new CauseId("unlisted-in-sound")))
        .isEqualTo(2, within(1e-9));
  }

  /** Two complaints at once speak for what can bring about both. Enumeration, and the direction. */
  @Test
  void sharedCauseLeads_whenBothComplaintsAreReported() {
    Pack both = together(power().build(), sound().build());
    var facts = Facts.told(Facts.reported("dead"), Facts.reported("silent"));
    Answers belief = CompiledAnswers.of(both, facts);
    WorldEnumerator worlds = WorldEnumerator.of(both, facts);
    CauseId rail = new CauseId("rail-shorted");
    assertThat(belief.p(rail)).isEqualTo(worlds.p(rail), within(1e-9));
    for (CauseId cause : Set.copyOf(both.causes().keySet())) {
      if (!cause.equals(rail)) {
        assertThat(belief.p(cause)).as("%s", cause).isLessThan(belief.p(rail));
      }
    }
    assertThat(both.complaints())
        .containsOnlyKeys(new ComplaintId("dead"), new ComplaintId("silent"));
  }
}
