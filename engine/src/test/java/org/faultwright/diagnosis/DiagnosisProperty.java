package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.PackRewrite;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.TooManyWorldsException;
import org.faultwright.oracle.WorldEnumerator;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.rules.BenchPack;
import org.faultwright.rules.RandomScenes;

/** What a diagnosis promises of facts: their order, their withdrawal, its forks, its numbers. */
class DiagnosisProperty {

  private static final long MOST_WORLDS = 4_000;

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.smallSituations(PackFeature.all(), 6);
  }

  @Provide
  Arbitrary<List<Fact>> scenes() {
    return RandomScenes.facts().list().ofMaxSize(10);
  }

  @Provide
  Arbitrary<Intake> intakes() {
    return RandomScenes.intakes();
  }

  private static Diagnosis open(Pack pack, Intake intake, List<Fact> facts) {
    Diagnosis diagnosis = Engine.create().open(pack, intake);
    facts.forEach(diagnosis::tell);
    return diagnosis;
  }

  private static Answer answer(Pack pack, List<Fact> facts) {
    try (Diagnosis diagnosis = open(pack, Intake.PLAIN, facts)) {
      return diagnosis.answer();
    }
  }

  @Property(tries = 60)
  void answerStaysTheSame_whenFactsBetweenAttemptsAreToldInAnotherOrder(
      @ForAll("situations") Situation s, @ForAll Random random) {
    List<Fact> other = Topics.shuffledBetweenAttempts(s.pack(), s.plainFacts(), random);
    Likeness.same(answer(s.pack(), s.plainFacts()), answer(s.pack(), other));
  }

  @Property(tries = 60)
  void answerIsAsIfNeverTold_whenAFactIsWithdrawn(
      @ForAll("scenes") List<Fact> facts,
      @ForAll("scenes") List<Fact> more,
      @ForAll("intakes") Intake intake) {
    try (Diagnosis plain = open(BenchPack.PACK, intake, facts);
        Diagnosis busy = open(BenchPack.PACK, intake, facts)) {
      List<FactId> told = new ArrayList<>();
      for (Fact fact : more) {
        told.add(busy.tell(fact));
        if (told.size() % 3 == 0) {
          busy.answer();
        }
      }
      told.forEach(busy::withdraw);
      assertThat(busy.answer()).isEqualTo(plain.answer());
    }
  }

  @Property(tries = 40)
  void answerIsAsIfNeverTold_whenAFactOfAnyRandomPackIsWithdrawn(
      @ForAll("situations") Situation s, @ForAll Random random) {
    List<Fact> facts = s.plainFacts();
    Assume.that(!facts.isEmpty());
    int which = random.nextInt(facts.size());
    List<Fact> fewer = new ArrayList<>(facts);
    fewer.remove(which);
    try (Diagnosis diagnosis = open(s.pack(), Intake.PLAIN, facts)) {
      diagnosis.answer();
      diagnosis.withdraw(new FactId(which + 1));
      Likeness.same(answer(s.pack(), fewer), diagnosis.answer());
    }
  }

  @Property(tries = 40)
  void bothSidesGoTheirOwnWay_whenADiagnosisIsForked(
      @ForAll("scenes") List<Fact> facts,
      @ForAll("scenes") List<Fact> here,
      @ForAll("scenes") List<Fact> there,
      @ForAll("intakes") Intake intake) {
    try (Diagnosis original = open(BenchPack.PACK, intake, facts)) {
      Answer before = original.answer();
      Answer supposed = original.suppose(there);
      try (Diagnosis fork = original.fork()) {
        there.forEach(fork::tell);
        assertThat(fork.answer()).isEqualTo(supposed);
        assertThat(original.answer()).isEqualTo(before);
        here.forEach(original::tell);
        Answer after = original.answer();
        assertThat(fork.answer()).isEqualTo(supposed);
        assertThat(after).isEqualTo(told(intake, facts, here));
        assertThat(supposed).isEqualTo(told(intake, facts, there));
      }
    }
  }

  private static Answer told(Intake intake, List<Fact> first, List<Fact> then) {
    List<Fact> all = new ArrayList<>(first);
    all.addAll(then);
    try (Diagnosis fresh = open(BenchPack.PACK, intake, all)) {
      return fresh.answer();
    }
  }

  /** Oracle: enumeration of worlds, with the facts that no later one about the same replaces. */
  @Property(tries = 80)
  void rankingEqualsEnumeration_whenAnyFactsAreTold(@ForAll("situations") Situation s) {
    Answer answer = answer(s.pack(), s.plainFacts());
    WorldEnumerator worlds =
        s.with(Corrections.standing(s.pack(), s.plainFacts())).enumerator(MOST_WORLDS);
    try {
      if (worlds.isImpossible()) {
        assertThat(answer.outlook()).isInstanceOf(Outlook.ImpossibleEvidence.class);
        return;
      }
      Assume.that(!(answer.outlook() instanceof Outlook.OverBudget));
      Posterior posterior = answer.posterior().orElseThrow();
      assertThat(posterior.ranking()).hasSameSizeAs(s.pack().causes().keySet());
      for (CauseId cause : s.pack().causes().keySet()) {
        assertThat(posterior.p(cause)).as("%s", cause).isEqualTo(worlds.p(cause), Likeness.EXACT);
      }
      posterior
          .lost()
          .forEach((c, p) -> assertThat(p).isEqualTo(worlds.pLostAtRest(c), Likeness.EXACT));
    } catch (TooManyWorldsException e) {
      Assume.that(false);
    }
  }

  @Property(tries = 120)
  void everyNumberIsFinite_whenAnyFactsAreTold(
      @ForAll("scenes") List<Fact> facts, @ForAll("intakes") Intake intake) {
    try (Diagnosis diagnosis = open(BenchPack.PACK, intake, facts)) {
      sound(diagnosis.answer());
    }
  }

  @Property(tries = 60)
  void everyNumberIsFinite_whenAnyFactsOfAnyRandomPackAreTold(@ForAll("situations") Situation s) {
    sound(answer(s.pack(), s.plainFacts()));
  }

  private static void sound(Answer answer) {
    Numbers.areFinite(answer);
    answer
        .posterior()
        .ifPresent(
            p -> {
              p.ranking().forEach(r -> assertThat(r.p()).isBetween(0.0, 1.0));
              p.lost().values().forEach(l -> assertThat(l).isBetween(0.0, 1.0));
            });
    for (Considered step : answer.steps()) {
      if (!step.outcomes().isEmpty()) {
        double sum = step.outcomes().values().stream().mapToDouble(x -> x).sum();
        assertThat(sum).as("outcomes of %s", step.step()).isEqualTo(1, Likeness.EXACT);
      }
    }
  }

  /** Declarations keep their order, so that ties fall as before. */
  @Property(tries = 60)
  void answerStaysTheSame_whenIdsAreOthers(@ForAll("situations") Situation s) {
    PackRewrite rewrite =
        PackRewrite.renamed(
            s.pack(), id -> "z" + Math.abs((id + "x").hashCode()) + "-" + id, false);
    Answer one = answer(s.pack(), s.plainFacts());
    Answer other = answer(rewrite.pack(), s.plainFacts().stream().map(rewrite::fact).toList());
    Likeness.sameOutlook(one, other, rewrite::of);
    assertThat(other.advice().primary().kind()).isEqualTo(one.advice().primary().kind());
    assertThat(other.advice().primary().step())
        .isEqualTo(one.advice().primary().step().map(rewrite::of));
    assertThat(other.advice().primary().about()).isEqualTo(one.advice().primary().about());
    assertThat(other.advice().others().stream().map(a -> a.step()))
        .containsExactlyElementsOf(
            one.advice().others().stream().map(a -> a.step().map(rewrite::of)).toList());
  }
}
