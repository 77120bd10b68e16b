package org.faultwright.explanation;

/**
 * What a fact says about a cause, given all other facts: the weight of evidence of Good (1950),
 * {@code 10 log10 (P(fact | cause, rest) / P(fact | no cause, rest))} in decibans.
 *
 * <p>I. J. Good, Probability and the Weighing of Evidence, 1950 (definition from memory).
 */
public sealed interface Weight extends Comparable<Weight> {

  /**
   * A finite weight.
   *
   * @param decibans above 0 speaks for the cause; 10 decibans multiply its odds by ten
   */
  record Finite(double decibans) implements Weight {

    /** Checks that the weight is finite. */
    public Finite {
      if (!Double.isFinite(decibans)) {
        throw new IllegalArgumentException("decibans must be finite: " + decibans);
      }
    }
  }

  /** With the other facts, it leaves nothing but the cause. */
  record Proves() implements Weight {}

  /** With the other facts, it leaves no room for the cause. */
  record RulesOut() implements Weight {}

  /** The weight that moved a probability. */
  static Weight between(double pWithout, double pWith) {
    if (pWithout == pWith) {
      return new Finite(0);
    }
    if (pWith <= 0) {
      return new RulesOut();
    }
    if (pWith >= 1) {
      return new Proves();
    }
    if (pWithout <= 0) {
      return new Proves();
    }
    if (pWithout >= 1) {
      return new RulesOut();
    }
    return new Finite(10 * (log10Odds(pWith) - log10Odds(pWithout)));
  }

  private static double log10Odds(double p) {
    return Math.log10(p) - Math.log1p(-p) / Math.log(10);
  }

  /** A number to sort by: decibans, infinite where the weight is. */
  default double order() {
    return this instanceof Finite f
        ? f.decibans
        : this instanceof Proves ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
  }

  /**
   * What a technician reads: below one deciban a fact hardly matters, below three it speaks a
   * little, from ten on (odds times ten) strongly.
   */
  default String words() {
    double size = Math.abs(order());
    String direction = order() > 0 ? "for it" : "against it";
    if (this instanceof Proves) {
      return "leaves nothing else";
    } else if (this instanceof RulesOut) {
      return "rules it out";
    } else if (size < 1) {
      return "hardly matters";
    } else if (size < 3) {
      return "speaks a little " + direction;
    }
    return size < 10 ? "speaks " + direction : "speaks strongly " + direction;
  }

  @Override
  default int compareTo(Weight other) {
    return Double.compare(order(), other.order());
  }
}
