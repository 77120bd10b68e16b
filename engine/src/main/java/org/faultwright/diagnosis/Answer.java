package org.faultwright.diagnosis;

import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.planning.Shop;
import org.faultwright.rules.AdviceSet;
import org.faultwright.rules.Findings;

/**
 * All that the engine has to say of a case at one moment. An immutable value; safe to keep, to
 * share and to compare.
 *
 * @param caseFile the case that it speaks of
 * @param findings what the rules conclude: which facts count, conflicts, holds, alarms, which steps
 *     are open
 * @param outlook how likely each cause is, or why that cannot be said
 * @param steps the steps of the pack: first the tests that were weighed, the most worth first, then
 *     all others in pack order
 * @param expectedCost what the rest of the job is expected to cost if the advice is followed
 *     without further tests, in the shop's currency; empty where it cannot be said
 * @param pLeftOut the probability of unlikely combinations of causes that the weighing of steps
 *     left out; 0 where nothing was weighed
 * @param advice what to do next, and what else
 * @param shop the rates and prices that steps were weighed by
 */
public record Answer(
    CaseFile caseFile,
    Findings findings,
    Outlook outlook,
    List<Considered> steps,
    java.util.OptionalDouble expectedCost,
    double pLeftOut,
    AdviceSet advice,
    Shop shop) {

  /** Copies the list. */
  public Answer {
    steps = List.copyOf(steps);
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
