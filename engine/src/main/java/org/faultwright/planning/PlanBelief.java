package org.faultwright.planning;

import java.util.Arrays;

/**
 * How likely each world is at a place of a plan. Immutable; equal where the probabilities are, but
 * for rounding.
 */
final class PlanBelief {

  /** Probabilities that differ by less than this are the same. */
  private static final double SAME = 1e-11;

  /** Of so few worlds none is left out. */
  private static final int FEW = 12;

  /** Worlds by number, increasing. */
  final int[] worlds;

  /** Their probabilities, which sum to 1. */
  final double[] p;

  /** P(what led here), where the place before it is certain. */
  final double mass;

  /** The part of the mass that was left out as negligible; the others hold given that it is not. */
  final double leftOut;

  private final int hash;

  private PlanBelief(int[] worlds, double[] p, double mass, double leftOut) {
    this.worlds = worlds;
    this.p = p;
    this.mass = mass;
    this.leftOut = leftOut;
    int sum = 1;
    for (int i = 0; i < p.length; i++) {
      sum = 31 * (31 * sum + worlds[i]) + Long.hashCode(Math.round(p[i] / SAME));
    }
    hash = sum;
  }

  /**
   * A belief.
   *
   * @param masses those of the worlds; need not sum to 1, and become probabilities in place
   * @param negligible the part of the mass that may be left out
   * @param leftOut the part that has been left out already
   */
  static PlanBelief of(int[] worlds, double[] masses, double negligible, double leftOut) {
    double total = Arrays.stream(masses).sum();
    double least = leastKept(masses, total * negligible);
    int n = 0;
    double left = 0;
    for (int i = 0; i < masses.length; i++) {
      if (masses[i] >= least) {
        worlds[n] = worlds[i];
        masses[n++] = masses[i];
        left += masses[i];
      }
    }
    double[] p = Arrays.copyOf(masses, n);
    for (int i = 0; i < n; i++) {
      p[i] /= left;
    }
    return new PlanBelief(
        n == worlds.length ? worlds : Arrays.copyOf(worlds, n),
        p,
        total,
        total > 0 ? Math.max(0, 1 - (1 - leftOut) * left / total) : 0);
  }

  /** The mass below which worlds are left out. */
  static double leastKept(double[] masses, double negligible) {
    if (masses.length <= FEW || negligible <= 0) {
      return 0;
    }
    double[] sorted = masses.clone();
    Arrays.sort(sorted);
    double sum = 0;
    int i = 0;
    while (i < sorted.length - FEW && sum + sorted[i] <= negligible) {
      sum += sorted[i++];
    }
    return sorted[i];
  }

  @Override
  public boolean equals(Object other) {
    if (!(other instanceof PlanBelief b) || hash != b.hash || !Arrays.equals(worlds, b.worlds)) {
      return false;
    }
    for (int i = 0; i < p.length; i++) {
      if (Math.round(p[i] / SAME) != Math.round(b.p[i] / SAME)) {
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
