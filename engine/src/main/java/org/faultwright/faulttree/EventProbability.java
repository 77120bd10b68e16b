package org.faultwright.faulttree;

/** How likely a basic event is. */
public sealed interface EventProbability {

  /** P(event), in [0, 1]. */
  double p();

  /** P(not event), in [0, 1], with all its digits also where P(event) is near 1. */
  double pNot();

  /** A plain number. */
  record Fixed(double p) implements EventProbability {
    /** Checks the domain. */
    public Fixed {
      if (!(p >= 0 && p <= 1)) {
        throw new IllegalArgumentException("p must be in [0, 1]: " + p);
      }
    }

    @Override
    public double pNot() {
      return 1 - p;
    }
  }

  /**
   * A constant failure rate over a mission time, without repair: {@code 1 - exp(-rate * time)}.
   *
   * @param rate failures per unit of time, not negative
   * @param time the mission time in the same unit, not negative
   */
  record Exponential(double rate, double time) implements EventProbability {
    /** Checks the domain. */
    public Exponential {
      if (!(rate >= 0 && rate < Double.POSITIVE_INFINITY)
          || !(time >= 0 && time < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "rate and time must be finite and not negative: " + rate + ", " + time);
      }
    }

    @Override
    public double p() {
      return -Math.expm1(-rate * time);
    }

    @Override
    public double pNot() {
      return Math.exp(-rate * time);
    }
  }
}
