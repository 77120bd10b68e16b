package org.faultwright.planning;

import java.util.Arrays;
import java.util.function.IntToDoubleFunction;

/**
 * A number for each world, worked out when it is first asked for, and its mean over a belief. Not
 * thread-safe.
 */
final class OnWorlds {

  private final int id;
  private final IntToDoubleFunction of;
  private double[] known = {};

  /**
   * Numbers.
   *
   * @param id the identity under which they are noted on sets of worlds
   */
  OnWorlds(int id, IntToDoubleFunction of) {
    this.id = id;
    this.of = of;
  }

  double at(int world) {
    if (world >= known.length) {
      int from = known.length;
      known = Arrays.copyOf(known, Math.max(64, 2 * world));
      Arrays.fill(known, from, known.length, Double.NaN);
    }
    double found = known[world];
    if (Double.isNaN(found)) {
      found = of.applyAsDouble(world);
      known[world] = found; // may have grown meanwhile
    }
    return found;
  }

  /** The numbers of the worlds of a set, in its order. */
  double[] over(WorldSet set) {
    Object noted = set.noted(id);
    return noted == null ? set.note(id, fresh(set)) : (double[]) noted;
  }

  private double[] fresh(WorldSet set) {
    double[] found = new double[set.size()];
    for (int i = 0; i < found.length; i++) {
      found[i] = at(set.worlds[i]);
    }
    return found;
  }

  /** The mean over a belief. */
  double mean(PlanBelief belief) {
    double[] x = over(belief.set);
    double[] p = belief.p;
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    int i = 0;
    // four sums, since additions to one have to wait for each other
    for (; i + 3 < p.length; i += 4) {
      a += p[i] * x[i];
      b += p[i + 1] * x[i + 1];
      c += p[i + 2] * x[i + 2];
      d += p[i + 3] * x[i + 3];
    }
    for (; i < p.length; i++) {
      a += p[i] * x[i];
    }
    return a + b + (c + d);
  }
}
