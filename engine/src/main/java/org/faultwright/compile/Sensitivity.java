package org.faultwright.compile;

import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.Told;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.StateId;

/**
 * How much the probability of a cause depends on the numbers of the pack.
 *
 * @param cause the cause
 * @param numbers first those that need to move least, in log odds, for another cause to be
 *     likelier; then all others, those first on which the probability depends most
 */
public record Sensitivity(CauseId cause, List<Influence> numbers) {

  /** Copies the list. */
  public Sensitivity {
    numbers = List.copyOf(numbers);
  }

  /** A number of the pack that the probability rests on. */
  public sealed interface Number {

    /** P(a cause is present) per device taken in. */
    record PriorOf(CauseId cause) implements Number {}

    /** How often the observation behind a fact catches what it looks for. */
    record Catches(Told told) implements Number {}

    /** How often the observation behind a fact cries wolf, or a complaint is made by mistake. */
    record CriesWolf(Told told) implements Number {}

    /** How often what was told is shown in a state. */
    record Shows(Told told, StateId state) implements Number {}
  }

  /**
   * What a number does.
   *
   * @param value the number as it stands, in [0, 1]
   * @param slope derivative of P(cause | facts) by it
   * @param below the largest smaller value at which another cause is as likely; empty where none is
   * @param above the smallest larger value at which another cause is as likely; empty where none is
   */
  public record Influence(
      Number number, double value, double slope, Optional<Turn> below, Optional<Turn> above) {

    /** Least change in log odds that makes another cause likelier; infinite where none does. */
    public double margin() {
      return Math.min(distance(below), distance(above));
    }

    private double distance(Optional<Turn> turn) {
      return turn.map(t -> Math.abs(logit(t.at) - logit(value))).orElse(Double.POSITIVE_INFINITY);
    }

    private static double logit(double p) {
      return Math.log(p) - Math.log1p(-p);
    }
  }

  /**
   * Where the order changes.
   *
   * @param at the value of the number
   * @param leads the cause that is as likely there
   */
  public record Turn(double at, CauseId leads) {}
}
