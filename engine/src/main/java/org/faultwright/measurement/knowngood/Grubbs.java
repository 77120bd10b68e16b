package org.faultwright.measurement.knowngood;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Outliers in a normal sample, on either side: F. E. Grubbs, Procedures for Detecting Outlying
 * Observations in Samples, Technometrics 11 (1969) 1. One outlier may hide another, so from {@value
 * #FEWEST_FOR_SEVERAL} readings on several are sought as B. Rosner did (Technometrics 25 (1983)
 * 165), of which Grubbs's test is the first step.
 */
final class Grubbs {

  /** Below this number of readings no reading can be called an outlier. */
  static final int FEWEST = 4;

  /** Rosner's critical values are good from here on. */
  static final int FEWEST_FOR_SEVERAL = 15;

  /** At most this part of the readings is called outliers: more would be a second kind of board. */
  private static final int MOST_ONE_IN = 5;

  private static final int MOST = 10;

  /** Less than this many steps off the mean the display itself may be why. */
  private static final double STEPS_OF_DISPLAY = 2;

  private Grubbs() {}

  /** The outlying values, farthest out first, where equal ones are listed as often as they are. */
  static List<Double> outliers(Sample sample, double pSignificance) {
    int n = sample.n();
    int most = n < FEWEST ? 0 : n < FEWEST_FOR_SEVERAL ? 1 : Math.min(MOST, n / MOST_ONE_IN);
    List<Double> farthest = new ArrayList<>();
    int found = 0;
    Sample left = sample;
    for (int i = 0; i < most; i++) {
      double mean = left.mean();
      boolean low = mean - left.least() > left.most() - mean;
      double value = low ? left.least() : left.most();
      double off = Math.abs(value - mean);
      farthest.add(value);
      if (off >= STEPS_OF_DISPLAY * left.step()
          && off > critical(left.n(), pSignificance) * left.cautiousDeviation()) {
        found = i + 1;
      }
      left = left.without(low ? 0 : left.n() - 1);
    }
    return farthest.subList(0, found);
  }

  /**
   * The largest distance from the mean, in standard deviations, that is exceeded by chance in a
   * normal sample with the stated probability.
   *
   * @param n at least 3
   */
  static double critical(int n, double pSignificance) {
    double t = TDistribution.of(n - 2.0).inverseSurvivalProbability(pSignificance / (2 * n));
    return (n - 1) / Math.sqrt(n) * Math.sqrt(t * t / (n - 2 + t * t));
  }
}
