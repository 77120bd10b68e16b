package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BiConsumer;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;

/** Someone at a bench does what the advice says until the job ends. */
final class Play {

  /** A device, and what those around it do and say. */
  interface Bench {

    /** Whether a step that is advised cannot be done after all. */
    boolean cannotDo(StepId step);

    /** What is done to the device. */
    void done(StepId step);

    OutcomeId outcome(Step step);

    ReadingValue read(PointId point);

    boolean agrees(ConsentId consent);

    /** What is said or seen of the same thing when asked again. */
    Fact again(Fact before);
  }

  private final Pack pack;
  private final Bench bench;
  private final Diagnosis diagnosis;
  private final List<Fact> did = new ArrayList<>();

  private Play(Pack pack, Bench bench, Diagnosis diagnosis) {
    this.pack = pack;
    this.bench = bench;
    this.diagnosis = diagnosis;
  }

  /**
   * Plays until the advice ends the job.
   *
   * @param most advices before it must have ended
   * @param each looks at the answers, and at the facts told before each
   * @return the number of advices followed
   */
  static int toTheEnd(
      Pack pack,
      Intake intake,
      List<Fact> first,
      Bench bench,
      int most,
      BiConsumer<Answer, List<Fact>> each) {
    try (Diagnosis diagnosis = Engine.create().open(pack, intake)) {
      first.forEach(diagnosis::tell);
      Play play = new Play(pack, bench, diagnosis);
      for (int followed = 0; ; followed++) {
        Answer answer = diagnosis.answer();
        each.accept(answer, diagnosis.caseFile().facts().stream().map(Told::fact).toList());
        if (answer.isEnd()) {
          return followed;
        }
        assertThat(followed).as("advices followed: %s", play.did).isLessThan(most);
        play.follow(answer.advice().primary());
      }
    }
  }

  private void tell(Fact fact) {
    did.add(fact);
    diagnosis.tell(fact);
  }

  private void follow(Advice advice) {
    int before = did.size();
    if (advice.kind() == Advice.Kind.ASK) {
      for (ConsentId consent : advice.consents()) {
        tell(new Fact.ConsentAnswered(consent, bench.agrees(consent)));
      }
    } else {
      for (BenchState turn : advice.turns()) {
        tell(new Fact.BenchSet(turn));
      }
      if (advice.step().isPresent()) {
        follow(pack.steps().get(advice.step().get()));
      } else if (advice.kind() == Advice.Kind.READ_AGAIN) {
        diagnosis.caseFile().facts().stream()
            .filter(t -> advice.about().contains(t.id()))
            .map(Told::fact)
            .toList()
            .forEach(f -> tell(bench.again(f)));
      }
    }
    assertThat(did.size()).as("something to do for %s", advice).isGreaterThan(before);
  }

  private void follow(Step step) {
    if (bench.cannotDo(step.id())) {
      tell(new Fact.CouldNotDo(step.id(), "it does not come off"));
      return;
    }
    boolean shows = step.shows().isPresent() || step.pinTable().isPresent();
    if (step.isAttempt() || !shows) {
      bench.done(step.id());
      tell(new Fact.StepDone(step.id(), Optional.empty()));
    }
    if (step.shows().isPresent()) {
      tell(new Fact.OutcomeSeen(step.id(), bench.outcome(step)));
    }
    for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
      if (point.boards().isEmpty()
          || diagnosis.caseFile().intake().board().filter(point.boards()::contains).isPresent()) {
        tell(
            new Fact.ReadingTaken(
                point.id(), bench.read(point.id()), OptionalDouble.empty(), Fact.Setup.AS_STATED));
      }
    }
  }
}
