package org.faultwright.diagnosis;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Spend;
import org.faultwright.rules.Advice;
import org.faultwright.rules.AdviceSet;
import org.faultwright.rules.Findings;
import org.faultwright.rules.Reason;

/**
 * All that the engine has to say of a case at one moment. An immutable value; safe to keep, to
 * share and to compare.
 *
 * @param caseFile the case that it speaks of
 * @param findings what the rules conclude: which facts count, conflicts, holds, alarms, which steps
 *     are open
 * @param outlook how likely each cause is, or why that cannot be said
 * @param steps the steps of the pack: first the tests that were weighed, the most worth first, then
 *     the repairs that were weighed, the cheapest first, then all others in pack order
 * @param expectedCost what the rest of the job is expected to cost by what is cheapest to do next,
 *     without further tests, in the shop's currency; empty where it cannot be said
 * @param ifRefused the same if the customer refuses all that nobody has asked for yet; empty where
 *     nothing is to be asked that could open anything. All other figures are as if the customer
 *     agreed: asking costs nothing and can be done at any time
 * @param ends what the job is expected to take to its end by an advice that ends it, as far as that
 *     was weighed
 * @param pLeftOut the probability of unlikely combinations of causes that the weighing of steps
 *     left out; 0 where nothing was weighed
 * @param advice what to do next, and what else
 * @param shop the rates and prices that steps were weighed by
 * @param readings the readings of the case, each held to its reference by itself, in the order of
 *     telling; those on known-good boards are left out
 */
public record Answer(
    CaseFile caseFile,
    Findings findings,
    Outlook outlook,
    List<Considered> steps,
    OptionalDouble expectedCost,
    OptionalDouble ifRefused,
    Map<Advice.Kind, Spend> ends,
    double pLeftOut,
    AdviceSet advice,
    Shop shop,
    List<JudgedReading> readings) {

  /** Copies the lists. */
  public Answer {
    steps = List.copyOf(steps);
    ends = Ordered.copy(ends);
    readings = List.copyOf(readings);
  }

  /**
   * What the job is expected to take from here to its end if this is done next and nothing is
   * tested after it: minutes, money and risk apart. One step is looked ahead, so that the whole in
   * money is an upper estimate: a test that is done later saves more than it costs. Where the
   * customer must be asked, that is if the customer agrees. Empty where it was not weighed: what is
   * safe, proved or put right first is not done for its cost.
   */
  public Optional<Spend> toTheEnd(Advice next) {
    return switch (next.kind()) {
      case TEST, REPAIR, ASK -> next.step().flatMap(this::toTheEnd);
      case SEND_ON, RETURN, CLOSE_UP ->
          next.reasons().stream().anyMatch(r -> r.why() == Reason.Why.NOT_THE_DEVICE)
              ? Optional.empty()
              : Optional.ofNullable(ends.get(next.kind()));
      default -> Optional.empty();
    };
  }

  /** The same with a step next; empty where it was not weighed. */
  public Optional<Spend> toTheEnd(StepId step) {
    return steps.stream()
        .filter(c -> c.step().equals(step))
        .findFirst()
        .flatMap(Considered::toTheEnd);
  }

  /**
   * How much more the job is expected to take with another advice in place of the first, minutes,
   * money and risk apart; what is below 0 is less. Empty where one of the two was not weighed.
   */
  public Optional<Spend> behind(Advice other) {
    return toTheEnd(advice.primary())
        .flatMap(first -> toTheEnd(other).map(o -> o.plus(first.times(-1))));
  }

  /** How the reading keeps to its reference; empty where the fact is no reading of the device. */
  public Optional<JudgedReading> reading(FactId fact) {
    return readings.stream().filter(r -> r.fact().equals(fact)).findFirst();
  }

  /** The posterior; empty where the facts are impossible or the case too wide. */
  public Optional<Posterior> posterior() {
    return outlook instanceof Posterior p ? Optional.of(p) : Optional.empty();
  }

  /** Whether the job ends with the advice. */
  public boolean isEnd() {
    return advice.primary().kind().isEnd();
  }
}
