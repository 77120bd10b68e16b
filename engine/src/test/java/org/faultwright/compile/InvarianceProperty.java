package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.PackRewrite;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** What must not make a difference to what facts make one believe. */
class InvarianceProperty {

  /** The same sums in another order. */
  private static final Offset<Double> EXACT = within(1e-10);

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.situations(PackFeature.all());
  }

  /**
   * Features under which a split says the same: no harm, which would have to choose a half, and no
   * part, which would stand in for both halves at once when it is bad.
   */
  @Provide
  Arbitrary<Situation> splittable() {
    Set<PackFeature> features = EnumSet.allOf(PackFeature.class);
    features.remove(PackFeature.HARMS);
    features.remove(PackFeature.SWAPS);
    return RandomCases.situations(features);
  }

  private static BeliefResult belief(Pack pack, List<Told> facts) {
    return ((CompiledPack) CompiledPack.compile(pack)).belief(facts);
  }

  private static void same(BeliefResult one, BeliefResult other, Pack pack) {
    assertThat(other).hasSameClassAs(one);
    if (one instanceof Belief a && other instanceof Belief b) {
      assertThat(b.logPEvidence()).isEqualTo(a.logPEvidence(), EXACT);
      for (CauseId cause : pack.causes().keySet()) {
        assertThat(b.p(cause)).as("%s", cause).isEqualTo(a.p(cause), EXACT);
      }
      for (EventId event : pack.events().keySet()) {
        assertThat(b.p(event)).as("%s", event).isEqualTo(a.p(event), EXACT);
      }
    }
  }

  /** Outcomes of one step keep their order: a repeat may copy the first. */
  @Property(tries = 200)
  void beliefStaysTheSame_whenFactsBetweenAttemptsAreToldInAnotherOrder(
      @ForAll("situations") Situation s, @ForAll Random random) {
    List<Fact> shuffled = new ArrayList<>();
    List<Fact> between = new ArrayList<>();
    for (Fact fact : s.plainFacts()) {
      if (fact instanceof Fact.StepDone) {
        shuffled.addAll(shuffled(between, random));
        shuffled.add(fact);
        between.clear();
      } else {
        between.add(fact);
      }
    }
    shuffled.addAll(shuffled(between, random));
    same(belief(s.pack(), s.facts()), belief(s.pack(), Facts.told(shuffled)), s.pack());
  }

  private static List<Fact> shuffled(List<Fact> facts, Random random) {
    List<Fact> shuffled = new ArrayList<>(facts);
    Collections.shuffle(shuffled, random);
    List<Fact> outcomes =
        new ArrayList<>(facts.stream().filter(f -> f instanceof Fact.OutcomeSeen).toList());
    for (int i = 0; i < shuffled.size(); i++) {
      if (shuffled.get(i) instanceof Fact.OutcomeSeen place) {
        Fact next =
            outcomes.stream()
                .filter(o -> ((Fact.OutcomeSeen) o).step().equals(place.step()))
                .findFirst()
                .orElseThrow();
        outcomes.remove(next);
        shuffled.set(i, next);
      }
    }
    return shuffled;
  }

  @Property(tries = 80)
  void beliefIsAsIfNeverTold_whenAFactIsWithdrawn(@ForAll("situations") Situation s) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(s.pack());
    CaseFile before = CaseFile.empty(s.pack().id(), Intake.PLAIN);
    for (Fact fact : s.plainFacts()) {
      before = before.with(fact);
    }
    CaseFile more = before;
    for (Step step : s.pack().steps().values()) {
      if (step.shows().isPresent()) {
        more = more.with(new Fact.OutcomeSeen(step.id(), step.shows().get().outcomes().get(0)));
      }
      if (step.isAttempt() && more.facts().size() < before.facts().size() + 2) {
        more = more.with(new Fact.StepDone(step.id(), Optional.empty()));
      }
    }
    BeliefResult first = compiled.belief(before.facts());
    compiled.belief(more.facts());
    CaseFile after = more;
    for (int n = before.facts().size() + 1; n <= more.facts().size(); n++) {
      after = after.without(new FactId(n));
    }
    BeliefResult last = compiled.belief(after.facts());
    assertThat(last).hasSameClassAs(first);
    if (first instanceof Belief a && last instanceof Belief b) {
      assertThat(b.logPEvidence()).isEqualTo(a.logPEvidence());
      assertThat(b.causes()).isEqualTo(a.causes());
    }
  }

  @Property(tries = 150)
  void beliefStaysTheSame_whenIdsAndTheOrderOfDeclarationsAreOthers(
      @ForAll("situations") Situation s, @ForAll boolean reversed) {
    // No attempt here harms two members of a group, which are tried in the order of the group.
    PackRewrite rewrite =
        PackRewrite.renamed(s.pack(), id -> "z" + Math.abs(id.hashCode()) + "-" + id, reversed);
    List<Fact> facts = s.plainFacts().stream().map(rewrite::fact).toList();
    BeliefResult one = belief(s.pack(), s.facts());
    BeliefResult other = belief(rewrite.pack(), Facts.told(facts));
    assertThat(other).hasSameClassAs(one);
    if (one instanceof Belief a && other instanceof Belief b) {
      assertThat(b.logPEvidence()).isEqualTo(a.logPEvidence(), EXACT);
      for (CauseId cause : s.pack().causes().keySet()) {
        assertThat(b.p(rewrite.of(cause))).as("%s", cause).isEqualTo(a.p(cause), EXACT);
      }
      for (StepId step : s.pack().steps().keySet()) {
        if (s.pack().steps().get(step).shows().isPresent()) {
          Map<?, Double> expected = a.outcomes(step);
          Map<?, Double> renamed = b.outcomes(rewrite.of(step));
          expected.forEach((o, p) -> assertThat(renamed.get(o)).isEqualTo(p, EXACT));
        }
      }
    }
  }

  @Property(tries = 300)
  void halvesSumToTheWhole_whenAMemberOfAGroupIsSplit(
      @ForAll("splittable") Situation s, @ForAll @DoubleRange(min = 0.1, max = 0.9) double part) {
    Assume.that(!s.pack().groups().isEmpty());
    OneOf group = s.pack().groups().values().iterator().next();
    CauseId whole = group.members().iterator().next();
    Assume.that(s.pack().causes().get(whole).likelihood() instanceof Cause.Likelihood.Prior);
    Assume.that(
        s.pack().events().values().stream()
            .noneMatch(
                e ->
                    e.combination() instanceof Event.Combination.All
                        && e.inputs().containsKey(whole)));
    CauseId first = new CauseId("half-a");
    CauseId second = new CauseId("half-b");
    Pack split =
        PackRewrite.split(s.pack(), new PackRewrite.Split(whole, first, second, part)).pack();
    BeliefResult one = belief(s.pack(), s.facts());
    BeliefResult other = belief(split, s.facts());
    assertThat(other).hasSameClassAs(one);
    if (one instanceof Belief a && other instanceof Belief b) {
      assertThat(b.logPEvidence()).isEqualTo(a.logPEvidence(), EXACT);
      assertThat(b.p(first) + b.p(second)).isEqualTo(a.p(whole), EXACT);
      assertThat(b.p(first)).isEqualTo(part * a.p(whole), EXACT);
      for (CauseId cause : s.pack().causes().keySet()) {
        if (!cause.equals(whole)) {
          assertThat(b.p(cause)).as("%s", cause).isEqualTo(a.p(cause), EXACT);
        }
      }
    }
  }
}
