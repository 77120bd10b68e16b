package org.faultwright.measurement.knowngood;

import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Anderson's and Darling's test for a normal distribution of unknown mean and deviation.
 *
 * <p>The statistic, its correction for small samples and the formulas for p are those of R. B.
 * D'Agostino and M. A. Stephens, Goodness-of-Fit Techniques (1986), tables 4.7 and 4.9 (case 3);
 * they hold from {@value #FEWEST} readings on.
 *
 * <p>A display rounds, and the test would take the ties for what is not normal: at 100 readings and
 * a deviation of two steps it would nearly always reject. So readings that are shown alike are
 * spread evenly over the step that the display rounds to one number. Down to a deviation of one
 * step (and up to some hundred readings) the test then rejects no more good samples than it should;
 * it loses some power.
 */
final class AndersonDarling {

  /** Below this number of readings the formulas do not hold. */
  static final int FEWEST = 8;

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private AndersonDarling() {}

  /** What the test says, or why it was not done. */
  static Normality test(Sample sample) {
    if (sample.n() < FEWEST) {
      return new Normality.TooFew();
    } else if (sample.deviation() < sample.step()) {
      return new Normality.TooCoarse();
    }
    double statistic = statistic(spread(sample));
    return new Normality.Tested(statistic, p(statistic));
  }

  /** A*^2 = A^2 (1 + 0.75/n + 2.25/n^2) of sorted values. */
  static double statistic(double[] sorted) {
    int n = sorted.length;
    double mean = Sample.mean(sorted);
    double deviation = Sample.deviation(sorted);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      double below = NORMAL.cumulativeProbability((sorted[i] - mean) / deviation);
      double above = NORMAL.survivalProbability((sorted[n - 1 - i] - mean) / deviation);
      // no reading is so far out that its tail is 0: at most (n-1)/sqrt n deviations
      sum += (2 * i + 1) * (Math.log(below) + Math.log(above));
    }
    double plain = -n - sum / n;
    return plain * (1 + 0.75 / n + 2.25 / ((double) n * n));
  }

  /** P(a normal sample gives as large a statistic). */
  static double p(double a) {
    if (a >= 0.6) {
      // the parabola of the table turns upwards far out, where p is 1e-9 and less
      double far = Math.min(a, 10);
      return Math.exp(1.2937 - 5.709 * far + 0.0186 * far * far);
    } else if (a > 0.34) {
      return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
    } else if (a > 0.2) {
      return 1 - Math.exp(-8.318 + 42.796 * a - 59.938 * a * a);
    }
    return 1 - Math.exp(-13.436 + 101.14 * a - 223.73 * a * a);
  }

  /** Readings shown alike, each moved within half a step. */
  private static double[] spread(Sample sample) {
    double[] spread = sample.sorted().clone();
    for (int from = 0; from < spread.length; ) {
      int to = from + 1;
      while (to < spread.length && spread[to] - sample.sorted()[from] < sample.step() / 2) {
        to++;
      }
      for (int i = from; i < to; i++) {
        spread[i] += sample.step() * ((i - from + 0.5) / (to - from) - 0.5);
      }
      from = to;
    }
    return spread;
  }
}
