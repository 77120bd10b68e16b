package org.faultwright.casefile;

import java.util.Optional;
import org.faultwright.pack.Condition;
import org.faultwright.pack.SymptomValue;

/**
 * A condition tree evaluated on a situation. The rule layer composes one guard for each step;
 * planning evaluates the same guards in imagined situations.
 *
 * @param condition what must hold
 */
public record Guard(Condition condition) {

  /** Whether the condition is met in the situation; unknown is not met. */
  public boolean holdsIn(Situation situation) {
    return evaluate(condition, situation) == Truth.TRUE;
  }

  /** The value of a condition in a situation, in three values. */
  public static Truth evaluate(Condition condition, Situation s) {
    if (condition instanceof Condition.Always) {
      return Truth.TRUE;
    } else if (condition instanceof Condition.All all) {
      return all.parts().stream().map(p -> evaluate(p, s)).reduce(Truth.TRUE, Truth::and);
    } else if (condition instanceof Condition.Any any) {
      return any.parts().stream().map(p -> evaluate(p, s)).reduce(Truth.FALSE, Truth::or);
    } else if (condition instanceof Condition.Not not) {
      return evaluate(not.part(), s).not();
    } else if (condition instanceof Condition.Unless unless) {
      return Truth.of(evaluate(unless.part(), s) != Truth.TRUE);
    } else if (condition instanceof Condition.SymptomIs c) {
      return known(
          Optional.ofNullable(s.symptoms().get(c.symptom()))
              .filter(v -> v != SymptomValue.NOT_KNOWN),
          c.value());
    } else if (condition instanceof Condition.OutcomeIs c) {
      return known(Optional.ofNullable(s.outcomes().get(c.step())), c.outcome());
    } else if (condition instanceof Condition.ReadingIs c) {
      return known(Optional.ofNullable(s.readings().get(c.point())), c.state());
    } else if (condition instanceof Condition.HistoryIs c) {
      return known(Optional.ofNullable(s.histories().get(c.history())), c.happened());
    } else if (condition instanceof Condition.BenchIs c) {
      return Truth.of(s.on().contains(c.state().of()) == c.state().on());
    } else if (condition instanceof Condition.Done c) {
      return Truth.of(s.done().contains(c.step()));
    } else if (condition instanceof Condition.Reproduced c) {
      return known(Optional.ofNullable(s.lost().get(c.complaint())), true);
    } else if (condition instanceof Condition.Works c) {
      return Truth.of(!s.lost().getOrDefault(c.complaint(), false));
    } else if (condition instanceof Condition.GoalIs c) {
      return Truth.of(s.goal() == c.goal());
    } else if (condition instanceof Condition.Consented c) {
      return known(Optional.ofNullable(s.consents().get(c.consent())), true);
    } else if (condition instanceof Condition.BoardIs c) {
      return known(s.board(), c.board());
    }
    throw new AssertionError("unknown condition: " + condition);
  }

  private static <T> Truth known(Optional<T> actual, T wanted) {
    return actual.map(a -> Truth.of(a.equals(wanted))).orElse(Truth.UNKNOWN);
  }
}
