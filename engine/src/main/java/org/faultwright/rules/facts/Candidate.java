package org.faultwright.rules.facts;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Conflict;
import org.faultwright.rules.Reason;

/**
 * Concluded: an advice that could be given.
 *
 * @param step the step to do, or to ask about
 * @param why the reason that made it a candidate
 * @param words the reason in words
 * @param value orders candidates of one kind, the greater first
 * @param order orders those of the same value: the place in the pack, nothing to be done first
 * @param turns the bench positions to bring about, where no step says so
 * @param about the facts that it is about
 * @param again what is to be looked at again, where it is that
 */
public record Candidate(
    Advice.Kind kind,
    Optional<StepId> step,
    Reason.Why why,
    String words,
    double value,
    int order,
    List<BenchState> turns,
    Set<FactId> about,
    Optional<Topic> again) {

  private static final Comparator<Candidate> GREATER_VALUE =
      Comparator.comparingDouble(Candidate::value).reversed();

  /** What is left when all else is equal; it never decides between different things to do. */
  private static final Comparator<Candidate> LAST =
      Comparator.comparingInt(Candidate::order)
          .thenComparing(c -> c.step.map(StepId::value).orElse(""))
          .thenComparing(c -> c.again.map(Topic::toString).orElse(""))
          .thenComparing(Candidate::newest, Comparator.reverseOrder())
          .thenComparing(Candidate::words)
          .thenComparing(c -> c.turns.toString())
          .thenComparing(c -> c.about.toString());

  private static final Comparator<Candidate> BY_VALUE =
      GREATER_VALUE
          .thenComparing(Candidate::kind)
          .thenComparing(Candidate::why)
          .thenComparing(LAST);

  private static final Comparator<Candidate> BY_REASON =
      Comparator.comparing(Candidate::why).thenComparing(GREATER_VALUE).thenComparing(LAST);

  /** Copies the collections, keeping their order. */
  public Candidate {
    turns = List.copyOf(turns);
    about = Ordered.copy(about);
  }

  /** Doing a step. */
  public static Candidate step(
      Advice.Kind kind, PackStep step, Reason.Why why, String words, double value) {
    return new Candidate(
        kind,
        Optional.of(step.id()),
        why,
        words,
        value,
        step.order(),
        List.of(),
        Set.of(),
        Optional.empty());
  }

  /** Asking the customer before a step. */
  public static Candidate ask(PackStep step, Reason.Why why, String words, double value) {
    return step(Advice.Kind.ASK, step, why, words, value);
  }

  /** Asking again what was said or seen. */
  public static Candidate lookAgain(Said said, Conflict conflict) {
    return again(
        Optional.empty(), Reason.Why.CONFLICT, said.id(), said.topic(), conflict.words(), 0);
  }

  /** Testing again. */
  public static Candidate testAgain(PackStep step, Observed seen, Conflict conflict) {
    return again(
        Optional.of(step), Reason.Why.CONFLICT, seen.id(), seen.topic(), conflict.words(), 0);
  }

  /** Taking a reading again. */
  public static Candidate rereading(PackStep step, FactId fact, Topic topic, double worth) {
    return again(
        Optional.of(step),
        Reason.Why.ON_LIMIT,
        fact,
        topic,
        "the reading " + fact + " lies on a limit, and it matters on which side",
        worth);
  }

  private static Candidate again(
      Optional<PackStep> step,
      Reason.Why why,
      FactId fact,
      Topic topic,
      String words,
      double value) {
    return new Candidate(
        Advice.Kind.READ_AGAIN,
        step.map(PackStep::id),
        why,
        words,
        value,
        step.map(PackStep::order).orElse(-1),
        List.of(),
        Set.of(fact),
        Optional.of(topic));
  }

  /** Looking again at what worked when the device came in and is faulty now. */
  public static Candidate brokenHere(CheckTold then, CheckTold now, String touchedLast) {
    return new Candidate(
        Advice.Kind.READ_AGAIN,
        Optional.empty(),
        Reason.Why.BROKEN_HERE,
        "it worked at intake and is faulty now: " + now.words() + touchedLast,
        0,
        -1,
        List.of(),
        Set.of(then.id(), now.id()),
        Optional.empty());
  }

  /** The number of the newest fact that it is about: of two about one thing the newer counts. */
  private int newest() {
    return about.stream().mapToInt(FactId::number).max().orElse(0);
  }

  /** Turning switches. */
  public static Candidate turning(
      Advice.Kind kind, List<BenchState> turns, Reason.Why why, String words) {
    return new Candidate(
        kind, Optional.empty(), why, words, 0, 0, turns, Set.of(), Optional.empty());
  }

  /** An advice that needs no more than its kind. */
  public static Candidate plain(Advice.Kind kind, Reason.Why why, String words) {
    return turning(kind, List.of(), why, words);
  }

  /** Whether it is about danger. */
  public boolean urgent() {
    return why == Reason.Why.ALARM || why == Reason.Why.HELD;
  }

  /** Whether it proves that the function is back. */
  public boolean proving() {
    return kind == Advice.Kind.FUNCTION_TEST;
  }

  /** Whether it tells more about the device. */
  public boolean looking() {
    return kind == Advice.Kind.READ_AGAIN
        || kind == Advice.Kind.TEST
        || why == Reason.Why.CONSENT_TO_TEST;
  }

  /**
   * Whether it is a test that is worth more than reading again is, where that is for a reading on a
   * limit and not for facts that do not fit.
   */
  public boolean isWorthMoreThanReadingAgain(Candidate again) {
    return kind == Advice.Kind.TEST && again.why == Reason.Why.ON_LIMIT && value > again.value;
  }

  /** Whether it is a repair, or asks for one. */
  public boolean repairing() {
    return kind == Advice.Kind.REPAIR
        || why == Reason.Why.CONSENT_TO_REPAIR
        || why == Reason.Why.CEILING;
  }

  /** Whether it settles how the job goes out: by a repair or by an end. */
  public boolean settling() {
    return repairing()
        || kind == Advice.Kind.SEND_ON
        || kind == Advice.Kind.RETURN
        || why == Reason.Why.RISK_TO_DATA
        || why == Reason.Why.ESTIMATE;
  }

  /** Whether it ends a job whose function is proved, or leads there. */
  public boolean windingUp() {
    return kind == Advice.Kind.CLOSE_UP
        || (kind == Advice.Kind.STOP && why == Reason.Why.MAY_COME_BACK);
  }

  /** Whether it gives the device away for what it costs, and not for what is wrong with it. */
  public boolean givingUp() {
    return (kind == Advice.Kind.SEND_ON || kind == Advice.Kind.RETURN)
        && (why == Reason.Why.CHEAPEST || why == Reason.Why.NOTHING_LEFT);
  }

  /** Whether it stops because facts cannot hold together. */
  public boolean stopsForConflict() {
    return kind == Advice.Kind.STOP && why == Reason.Why.CONFLICT;
  }

  /** Whether it comes before another by value, then by kind and reason, then by order. */
  public boolean comesBeforeByValue(Candidate other) {
    return BY_VALUE.compare(this, other) < 0;
  }

  /** Whether it comes before another by reason, then by value, then by order. */
  public boolean comesBeforeByReason(Candidate other) {
    return BY_REASON.compare(this, other) < 0;
  }
}
