package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.oracle.BenchSimulator;
import org.faultwright.oracle.Device;
import org.faultwright.oracle.Meter;
import org.faultwright.oracle.PackFeature;
import org.faultwright.oracle.PackSketch;
import org.faultwright.oracle.RandomCases;
import org.faultwright.oracle.RandomCases.Situation;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.Hold;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.planning.PricedPacks;
import org.faultwright.rules.Advice;
import org.faultwright.rules.BenchPack;
import org.faultwright.rules.Conflict;
import org.faultwright.rules.HoldInForce;
import org.faultwright.rules.RandomScenes;
import org.faultwright.rules.Reason;

/** What advice never is, and that it ends. */
class AdviceProperty {

  /** The complaint of every random pack, and the step that proves its function. */
  private static final ComplaintId COMPLAINT = new ComplaintId("complaint-a");

  private static final StepId FUNCTION_TEST = new StepId("function-test");

  private static final Fact REPORTED = new Fact.Complained(COMPLAINT, true);

  @Provide
  Arbitrary<Situation> situations() {
    return RandomCases.smallSituations(PackFeature.all(), 6);
  }

  @Provide
  Arbitrary<Situation> withAttempts() {
    return RandomCases.smallSituations(
            Set.of(
                PackFeature.REPAIRS,
                PackFeature.SWAPS,
                PackFeature.HIDES,
                PackFeature.REPEATABLE,
                PackFeature.HARMS,
                PackFeature.GROUPS,
                PackFeature.UNSURE_COPIES),
            5)
        .filter(s -> s.pack().steps().values().stream().anyMatch(Step::isAttempt));
  }

  @Provide
  Arbitrary<List<Fact>> scenes() {
    return RandomScenes.facts().list().ofMaxSize(10);
  }

  @Provide
  Arbitrary<Intake> intakes() {
    return Combinators.combine(
            RandomScenes.intakes(), Arbitraries.of(0.0, 5.0, 30.0, 1000.0).optional(0.6))
        .as(AdviceProperty::withCeiling);
  }

  private static Intake withCeiling(Intake i, Optional<Double> ceiling) {
    return new Intake(
        i.board(),
        i.goal(),
        i.consented(),
        i.refused(),
        ceiling.map(OptionalDouble::of).orElse(OptionalDouble.empty()),
        i.deviceValue(),
        i.irreplaceableData(),
        i.lacking(),
        i.skill());
  }

  @Provide
  Arbitrary<Long> seeds() {
    return Arbitraries.longs().withoutEdgeCases();
  }

  private static Answer answer(Pack pack, Intake intake, List<Fact> facts) {
    try (Diagnosis diagnosis = Engine.create().open(pack, intake)) {
      facts.forEach(diagnosis::tell);
      return diagnosis.answer();
    }
  }

  // What is never advised

  @Property(tries = 120)
  void nothingHeldOrNotAgreedToIsAdvised_whenAnyFactsAreTold(
      @ForAll("scenes") List<Fact> facts, @ForAll("intakes") Intake intake) {
    permitted(answer(BenchPack.PACK, intake, facts), facts);
  }

  private static void permitted(Answer answer, List<Fact> facts) {
    List<Advice> all = new ArrayList<>(answer.advice().others());
    all.add(answer.advice().primary());
    Set<ActivityId> forbidden = forbidden(answer, facts);
    Set<ConsentId> agreed = agreed(answer, facts);
    for (Advice advice : all) {
      if (advice.kind() == Advice.Kind.ASK) {
        assertThat(advice.consents()).as("%s", advice).isNotEmpty().noneMatch(agreed::contains);
        continue;
      }
      // looking again at what a position showed may be advised in words; doing it is what counts
      assertThat(activities(advice)).as("%s", advice).noneMatch(forbidden::contains);
      assertThat(agreed).as("%s", advice).containsAll(consents(advice));
    }
  }

  private static Set<ActivityId> forbidden(Answer answer, List<Fact> facts) {
    Set<ActivityId> forbidden = new LinkedHashSet<>();
    for (HoldInForce hold : answer.findings().holds()) {
      forbidden.addAll(hold.hold().forbids());
    }
    Hold swollen =
        BenchPack.PACK.holds().values().stream()
            .filter(h -> h.id().value().equals("swollen-battery"))
            .findFirst()
            .orElseThrow();
    if (isSwollen(facts)
        && !facts.contains(new Fact.StepDone(new StepId("remove-battery"), Optional.empty()))) {
      assertThat(forbidden).containsAll(swollen.forbids());
    }
    return forbidden;
  }

  private static boolean isSwollen(List<Fact> facts) {
    boolean swollen = false;
    for (Fact fact : facts) {
      if (fact instanceof Fact.SymptomNoted s && s.symptom().equals(new SymptomId("swollen"))) {
        swollen = s.value() == SymptomValue.PRESENT;
      }
    }
    return swollen;
  }

  private static Set<ConsentId> agreed(Answer answer, List<Fact> facts) {
    Set<ConsentId> agreed = new LinkedHashSet<>(answer.caseFile().intake().consented());
    for (Fact fact : facts) {
      if (fact instanceof Fact.ConsentAnswered c && c.given()) {
        agreed.add(c.consent());
      } else if (fact instanceof Fact.ConsentAnswered c) {
        agreed.remove(c.consent());
      }
    }
    return agreed;
  }

  private static Set<ActivityId> activities(Advice advice) {
    Set<ActivityId> does = new LinkedHashSet<>();
    for (BenchState turn : advice.turns()) {
      does.addAll(turn(turn).does());
      if (turn.on()) {
        does.addAll(BenchPack.PACK.switches().get(turn.of()).whileOn());
      }
    }
    for (Step step : step(advice)) {
      does.addAll(step.does());
      for (BenchState needed : step.conditions().bench()) {
        if (needed.on()) {
          does.addAll(BenchPack.PACK.switches().get(needed.of()).whileOn());
        }
      }
    }
    return does;
  }

  private static Set<ConsentId> consents(Advice advice) {
    Set<ConsentId> consents = new LinkedHashSet<>();
    advice.turns().forEach(t -> consents.addAll(turn(t).consent()));
    step(advice).forEach(s -> consents.addAll(s.conditions().consent()));
    return consents;
  }

  private static List<Step> step(Advice advice) {
    return advice.step().map(BenchPack.PACK.steps()::get).stream().toList();
  }

  private static Switch.Turn turn(BenchState to) {
    Switch s = BenchPack.PACK.switches().get(to.of());
    return (to.on() ? s.turnOn() : s.turnOff()).orElseThrow();
  }

  /** A device with two faults to tell apart, each with its repair, by looks good and bad. */
  private static Pack twoFaults(SplittableRandom random) {
    PackSketch sketch =
        new PackSketch("random-family/two-faults")
            .prior("a", random.nextInt(5, 50) / 100.0)
            .prior("b", random.nextInt(5, 50) / 100.0)
            .any("lost", PackSketch.cause("a", 1), PackSketch.cause("b", 1))
            .complaint(COMPLAINT.value(), "lost")
            .step(new StepSketch("repair-a").changes("a", 0.95, 0))
            .step(new StepSketch("repair-b").changes("b", 0.95, 0))
            .step(new StepSketch("proof").proves(COMPLAINT.value(), "lost", 0.98, 0.02));
    for (String look : List.of("look-1", "look-2", "look-3")) {
      double criesWolf = random.nextInt(1, 50) / 100.0;
      double catches = random.nextBoolean() ? criesWolf : random.nextInt(50, 100) / 100.0;
      CauseId at = new CauseId(random.nextBoolean() ? "a" : "b");
      sketch.step(new StepSketch(look).looksAt(at, catches, criesWolf));
    }
    return PricedPacks.priced(sketch.build());
  }

  /** Of a test that is advised some outcome would change what is believed of the device. */
  @Property(tries = 80)
  void testsThatAreAdvisedCanTellSomething_whenTwoFaultsAreToBeToldApart(
      @ForAll("seeds") long seed) {
    Pack pack = twoFaults(new SplittableRandom(seed));
    try (Diagnosis diagnosis = Engine.create().open(pack, Intake.PLAIN)) {
      diagnosis.tell(new Fact.Complained(COMPLAINT, true));
      Answer now = diagnosis.answer();
      Advice advice = now.advice().primary();
      Assume.that(advice.kind() == Advice.Kind.TEST);
      Step step = pack.steps().get(advice.step().orElseThrow());
      double most = 0;
      for (OutcomeId outcome : step.shows().orElseThrow().outcomes()) {
        Answer then = diagnosis.suppose(List.of(new Fact.OutcomeSeen(step.id(), outcome)));
        most = Math.max(most, change(now, then));
      }
      assertThat(most).as("%s", advice).isGreaterThan(1e-9);
    }
  }

  private static double change(Answer now, Answer then) {
    Posterior a = now.posterior().orElseThrow();
    Posterior b = then.posterior().orElseThrow();
    double most = 0;
    for (Posterior.Ranked r : a.ranking()) {
      most = Math.max(most, Math.abs(b.p(r.cause()) - r.p()));
    }
    for (Map.Entry<ComplaintId, Double> lost : a.lost().entrySet()) {
      most = Math.max(most, Math.abs(b.lost().get(lost.getKey()) - lost.getValue()));
    }
    return most;
  }

  // Proof

  @Property(tries = 80)
  void functionIsTestedFirst_whenARepairCanHaveMovedIt(
      @ForAll("withAttempts") Situation s, @ForAll("seeds") long seed) {
    List<Step> attempts = s.pack().steps().values().stream().filter(Step::isAttempt).toList();
    Step attempt = attempts.get(new SplittableRandom(seed).nextInt(attempts.size()));
    Set<CauseId> causes = Corrections.causesOf(s.pack(), COMPLAINT);
    Assume.that(Corrections.touched(s.pack(), attempt).stream().anyMatch(causes::contains));
    List<Fact> facts = new ArrayList<>(s.plainFacts());
    facts.add(REPORTED);
    facts.add(new Fact.StepDone(attempt.id(), Optional.empty()));
    Advice advice = answer(s.pack(), Intake.PLAIN, facts).advice().primary();
    assertThat(advice.kind()).isEqualTo(Advice.Kind.FUNCTION_TEST);
    assertThat(advice.step()).contains(FUNCTION_TEST);
  }

  // Ends

  @Property(tries = 60)
  void adviceEnds_whenAnswersHaveNothingToDoWithADevice(
      @ForAll("scenes") List<Fact> facts,
      @ForAll("intakes") Intake intake,
      @ForAll("seeds") long seed) {
    Play.toTheEnd(
        BenchPack.PACK,
        intake,
        facts,
        new Adversary(seed),
        most(BenchPack.PACK),
        (answer, told) -> {
          permitted(answer, told);
          closesOnlyWhatIsProved(answer, told);
        });
  }

  private static int most(Pack pack) {
    int attempts = (int) pack.steps().values().stream().filter(Step::isAttempt).count();
    // each attempt asks for the proof of what it can have moved
    return 3 * pack.steps().size() + 3 * attempts;
  }

  private static void closesOnlyWhatIsProved(Answer answer, List<Fact> facts) {
    Advice advice = answer.advice().primary();
    boolean done =
        advice.kind() == Advice.Kind.STOP
            && advice.reasons().stream().anyMatch(r -> r.why() == Reason.Why.DONE)
            && answer.caseFile().intake().goal() != Goal.DATA_ONLY;
    if (advice.kind() == Advice.Kind.CLOSE_UP || done) {
      Set<ComplaintId> reported = new LinkedHashSet<>();
      for (Fact fact : facts) {
        if (fact instanceof Fact.Complained c && c.reported()) {
          reported.add(c.complaint());
        } else if (fact instanceof Fact.Complained c) {
          reported.remove(c.complaint());
        }
      }
      assertThat(reported).isNotEmpty();
      for (ComplaintId complaint : reported) {
        assertThat(Corrections.lastProof(BenchPack.PACK, complaint, facts))
            .as("proof of %s in %s", complaint, facts)
            .contains("passed");
      }
    }
  }

  @Property(tries = 60)
  void adviceEnds_whenAnswersHaveNothingToDoWithARandomPack(
      @ForAll("situations") Situation s, @ForAll("seeds") long seed) {
    List<Fact> facts = new ArrayList<>(s.plainFacts());
    facts.add(REPORTED);
    Play.toTheEnd(
        s.pack(), Intake.PLAIN, facts, new Adversary(seed), most(s.pack()), (answer, told) -> {});
  }

  /** Devices that are as the pack says. */
  @Property(tries = 60)
  void adviceEnds_whenADeviceIsAsThePackSays(
      @ForAll("withAttempts") Situation s, @ForAll("seeds") long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Device device =
        new BenchSimulator(s.pack(), stated(s.pack()), Meter.NONE, random.split()).draw();
    Play.toTheEnd(
        s.pack(),
        Intake.PLAIN,
        List.of(REPORTED),
        new Simulated(device, random.split()),
        most(s.pack()),
        (answer, told) -> Numbers.areFinite(answer));
  }

  private static Map<CauseId, Double> stated(Pack pack) {
    Map<CauseId, Double> stated = new LinkedHashMap<>();
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.Prior prior) {
        stated.put(cause.id(), prior.chance().p());
      }
    }
    return stated;
  }

  private record Simulated(Device device, SplittableRandom random) implements Play.Bench {

    @Override
    public boolean cannotDo(StepId step) {
      return random.nextInt(20) == 0;
    }

    @Override
    public void done(StepId step) {
      device.doStep(step);
    }

    @Override
    public OutcomeId outcome(Step step) {
      return device.outcome(step.id());
    }

    @Override
    public ReadingValue read(PointId point) {
      return device.read(point);
    }

    @Override
    public boolean agrees(ConsentId consent) {
      return random.nextBoolean();
    }

    @Override
    public Fact again(Fact before) {
      return before;
    }
  }

  // What cannot be

  /** Features that contradict each other often. */
  @Provide
  Arbitrary<Situation> contradictory() {
    return RandomCases.smallSituations(
            Set.of(
                PackFeature.EXTREMES,
                PackFeature.SYMPTOMS,
                PackFeature.HISTORY,
                PackFeature.COMPLAINTS,
                PackFeature.GROUPS),
            5)
        .filter(s -> s.enumerator(4_000).isImpossible());
  }

  @Property(tries = 25)
  void clashingFactsAreNamedToBeReadAgain_whenTheyCannotAllBeTrue(
      @ForAll("contradictory") Situation s) {
    try (Diagnosis diagnosis = Engine.create().open(s.pack(), Intake.PLAIN)) {
      Corrections.standing(s.pack(), s.plainFacts()).forEach(diagnosis::tell);
      Answer answer = diagnosis.answer();
      Assume.that(answer.outlook() instanceof Outlook.ImpossibleEvidence);
      Set<FactId> clash = ((Outlook.ImpossibleEvidence) answer.outlook()).clash();
      assertThat(answer.advice().conflicts())
          .anyMatch(c -> c.kind() == Conflict.Kind.IMPOSSIBLE && c.facts().equals(clash));
      Advice advice = answer.advice().primary();
      if (advice.kind() == Advice.Kind.READ_AGAIN) {
        assertThat(advice.about()).isNotEmpty();
      } else {
        assertThat(advice.kind()).isEqualTo(Advice.Kind.STOP);
        assertThat(advice.reasons().get(0).why()).isEqualTo(Reason.Why.CONFLICT);
        assertThat(mayBeReadAgain(diagnosis, clash)).isEmpty();
      }
      isSmallest(diagnosis, clash);
    }
  }

  /** Facts of which not two others about the same thing were told, of a step that can be done. */
  private static List<Fact> mayBeReadAgain(Diagnosis diagnosis, Set<FactId> clash) {
    List<Fact> all = diagnosis.caseFile().facts().stream().map(Told::fact).toList();
    return Likeness.facts(diagnosis.answer(), clash).stream()
        .filter(f -> all.stream().noneMatch(o -> o instanceof Fact.CouldNotDo))
        .filter(f -> all.stream().filter(o -> Topics.of(o).equals(Topics.of(f))).count() < 3)
        .toList();
  }

  private static void isSmallest(Diagnosis diagnosis, Set<FactId> clash) {
    try (Diagnosis only = diagnosis.fork()) {
      diagnosis.caseFile().facts().stream()
          .map(Told::id)
          .filter(id -> !clash.contains(id))
          .forEach(only::withdraw);
      assertThat(only.answer().outlook()).isInstanceOf(Outlook.ImpossibleEvidence.class);
      for (FactId one : clash) {
        try (Diagnosis fewer = only.fork()) {
          fewer.withdraw(one);
          assertThat(fewer.answer().outlook())
              .as("without %s of %s", one, clash)
              .isNotInstanceOf(Outlook.ImpossibleEvidence.class);
        }
      }
    }
  }
}
