package org.faultwright.planning;

import java.util.Arrays;

/**
 * How likely each world is at a place of a plan. Immutable; equal where the probabilities are, but
 * for rounding.
 */
final class PlanBelief {

  /** Probabilities that differ by less than this are the same. */
  private static final double SAME = 1e-11;

  private static final double PER_SAME = 1 / SAME;

  /** Of so few worlds none is left out. */
  private static final int FEW = 12;

  /** The worlds; some may have probability 0. */
  final WorldSet set;

  /** Their probabilities, which sum to 1. */
  final double[] p;

  /** P(what led here), where the place before it is certain. */
  final double mass;

  /** The part of the mass that was left out as negligible; the others hold given that it is not. */
  final double leftOut;

  private final int hash;

  /**
   * A belief.
   *
   * @param masses those of the worlds; need not sum to 1, and become probabilities in place
   * @param total what they sum to
   * @param negligible the part of the mass that may be left out
   * @param leftOut the part that has been left out already
   */
  PlanBelief(WorldSet set, double[] masses, double total, double negligible, double leftOut) {
    this.set = set;
    this.p = masses;
    this.mass = total;
    double least = leastKept(masses, total * negligible);
    double left = total;
    if (least > 0) {
      left = 0;
      for (int i = 0; i < masses.length; i++) {
        if (masses[i] < least) {
          masses[i] = 0;
        }
        left += masses[i];
      }
    }
    this.leftOut = total > 0 ? Math.max(0, 1 - (1 - leftOut) * left / total) : 0;
    long sum = 1;
    if (total > 0) {
      double scale = 1 / left;
      for (int i = 0; i < masses.length; i++) {
        masses[i] *= scale;
        sum = 31 * sum + rounded(masses[i]);
      }
    }
    hash = Long.hashCode(sum * 0x9E3779B97F4A7C15L) + System.identityHashCode(set);
  }

  private static long rounded(double p) {
    return (long) (p * PER_SAME + 0.5);
  }

  /** The mass below which worlds are left out. */
  static double leastKept(double[] masses, double negligible) {
    if (masses.length <= FEW || negligible <= 0) {
      return 0;
    }
    int small = 0;
    int there = 0;
    for (double m : masses) {
      if (m > 0) {
        there++;
        small += m <= negligible ? 1 : 0;
      }
    }
    if (small == 0 || there <= FEW) {
      return 0;
    }
    double[] sorted = new double[small];
    int n = 0;
    for (double m : masses) {
      if (m > 0 && m <= negligible) {
        sorted[n++] = m;
      }
    }
    Arrays.sort(sorted);
    double sum = 0;
    int i = 0;
    while (i < Math.min(small, there - FEW) && sum + sorted[i] <= negligible) {
      sum += sorted[i++];
    }
    return i < small ? sorted[i] : Math.nextUp(sorted[small - 1]);
  }

  /** How many worlds have a probability above 0. */
  int count() {
    int n = 0;
    for (double q : p) {
      n += q > 0 ? 1 : 0;
    }
    return n;
  }

  @Override
  public boolean equals(Object other) {
    if (!(other instanceof PlanBelief b) || hash != b.hash || set != b.set) {
      return false;
    }
    for (int i = 0; i < p.length; i++) {
      if (rounded(p[i]) != rounded(b.p[i])) {
        return false;
      }
    }
    return true;
  }

  @Override
  public int hashCode() {
    return hash;
  }
}
