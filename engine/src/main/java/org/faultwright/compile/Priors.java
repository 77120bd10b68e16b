package org.faultwright.compile;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;

/**
 * Probabilities of causes by history. History multiplies odds; base odds are solved so that the
 * probability with history unknown stays the stated one.
 */
final class Priors {

  private static final int MOST_ROUNDS = 10_000;

  private Priors() {}

  /** The histories that the causes come after, in pack order. */
  static List<HistoryId> histories(Pack pack, List<Cause> causes) {
    return pack.histories().keySet().stream()
        .filter(h -> causes.stream().anyMatch(c -> c.after().containsKey(h)))
        .toList();
  }

  /** P(absent), P(present) for each combination of histories; the last history runs fastest. */
  static double[] rows(Pack pack, Cause cause, double p) {
    List<HistoryId> histories = histories(pack, List.of(cause));
    double[] weights = weights(pack, histories);
    double[] factors = factors(cause, histories);
    double logOdds = solve(p, weights, factors);
    double[] rows = new double[2 * weights.length];
    for (int c = 0; c < weights.length; c++) {
      double present = p == 0 ? 0 : p == 1 ? 1 : logistic(logOdds + Math.log(factors[c]));
      rows[2 * c] = p == 1 ? 0 : p == 0 ? 1 : logistic(-(logOdds + Math.log(factors[c])));
      rows[2 * c + 1] = present;
    }
    return rows;
  }

  /** P(none), P(member)... for each combination of histories; the last history runs fastest. */
  static double[] rows(Pack pack, OneOf group, Map<CauseId, Double> priors) {
    List<Cause> members = group.members().stream().map(pack.causes()::get).toList();
    List<HistoryId> histories = histories(pack, members);
    double[] weights = weights(pack, histories);
    int states = members.size() + 1;
    double[] target = new double[states];
    double total = 0;
    for (int m = 1; m < states; m++) {
      target[m] = priors.get(members.get(m - 1).id());
      total += target[m];
    }
    if (group.certain()) {
      for (int m = 1; m < states; m++) {
        target[m] /= total;
      }
    } else {
      target[0] = Math.max(0, 1 - total);
    }
    double[][] factors = new double[states][];
    factors[0] = new double[weights.length];
    java.util.Arrays.fill(factors[0], 1);
    for (int m = 1; m < states; m++) {
      factors[m] = factors(members.get(m - 1), histories);
    }
    return balance(target, weights, factors);
  }

  /**
   * Base weights such that the mean over histories is the target (iterative proportional fitting).
   */
  private static double[] balance(double[] target, double[] weights, double[][] factors) {
    int states = target.length;
    double[] base = target.clone();
    double[] rows = new double[states * weights.length];
    for (int round = 0; round < MOST_ROUNDS; round++) {
      double[] mean = new double[states];
      for (int c = 0; c < weights.length; c++) {
        double total = 0;
        for (int s = 0; s < states; s++) {
          total += base[s] * factors[s][c];
        }
        for (int s = 0; s < states; s++) {
          rows[c * states + s] = base[s] * factors[s][c] / total;
          mean[s] += weights[c] * rows[c * states + s];
        }
      }
      double off = 0;
      for (int s = 0; s < states; s++) {
        if (target[s] > 0) {
          off = Math.max(off, Math.abs(mean[s] / target[s] - 1));
          base[s] *= target[s] / mean[s];
        }
      }
      if (off < 1e-15) {
        break;
      }
    }
    return rows;
  }

  /** Log odds without history, by bisection and Newton's rule: the mean is monotone in them. */
  private static double solve(double p, double[] weights, double[] factors) {
    if (p == 0 || p == 1) {
      return 0;
    }
    double goal = Math.log(p) - Math.log1p(-p);
    double low = goal;
    double high = goal;
    for (double f : factors) {
      low = Math.min(low, goal - Math.log(f));
      high = Math.max(high, goal - Math.log(f));
    }
    double x = (low + high) / 2;
    for (int i = 0; i < 200; i++) {
      double mean = 0;
      double slope = 0;
      for (int c = 0; c < weights.length; c++) {
        double q = logistic(x + Math.log(factors[c]));
        mean += weights[c] * q;
        slope += weights[c] * q * (1 - q);
      }
      if (mean == p) {
        return x;
      }
      if (mean < p) {
        low = x;
      } else {
        high = x;
      }
      double next = x + (p - mean) / slope;
      next = next > low && next < high ? next : (low + high) / 2;
      if (next == x) {
        return x;
      }
      x = next;
    }
    return x;
  }

  private static double logistic(double x) {
    return x >= 0 ? 1 / (1 + Math.exp(-x)) : Math.exp(x) / (1 + Math.exp(x));
  }

  private static double[] weights(Pack pack, List<HistoryId> histories) {
    double[] weights = new double[1 << histories.size()];
    for (int c = 0; c < weights.length; c++) {
      weights[c] = 1;
      for (int h = 0; h < histories.size(); h++) {
        double likely = pack.histories().get(histories.get(h)).likely().p();
        weights[c] *= holds(c, h, histories.size()) ? likely : 1 - likely;
      }
    }
    return weights;
  }

  private static double[] factors(Cause cause, List<HistoryId> histories) {
    List<Double> each = new ArrayList<>();
    histories.forEach(h -> each.add(cause.after().getOrDefault(h, 1.0)));
    double[] factors = new double[1 << histories.size()];
    for (int c = 0; c < factors.length; c++) {
      factors[c] = 1;
      for (int h = 0; h < each.size(); h++) {
        if (holds(c, h, each.size())) {
          factors[c] *= each.get(h);
        }
      }
    }
    return factors;
  }

  /** Whether history h holds in combination c; the last history is the lowest bit. */
  private static boolean holds(int c, int h, int n) {
    return (c >> (n - 1 - h) & 1) == 1;
  }
}
