package org.faultwright.measurement.knowngood;

import java.util.Arrays;

/**
 * Readings of one pin on several boards, sorted, so that the order of boards cannot matter.
 *
 * @param sorted in SI units, ascending, at least one
 * @param step of the display, in SI units, above 0
 */
record Sample(double[] sorted, double step) {

  Sample {
    if (sorted.length == 0 || !(step > 0)) {
      throw new IllegalArgumentException(
          "a sample must have readings and a step above 0: " + sorted.length + ", " + step);
    }
    sorted = sorted.clone();
    Arrays.sort(sorted);
  }

  int n() {
    return sorted.length;
  }

  double least() {
    return sorted[0];
  }

  double most() {
    return sorted[sorted.length - 1];
  }

  double mean() {
    return mean(sorted);
  }

  /** Standard deviation as it is, with n - 1; 0 for one reading. */
  double deviation() {
    return deviation(sorted);
  }

  /**
   * Standard deviation, not below that of the display's rounding, a step/sqrt 12: boards that all
   * show the same number are not for that reason all the same (JCGM 100:2008, F.2.2.1).
   */
  double cautiousDeviation() {
    return Math.max(deviation(), step / Math.sqrt(12));
  }

  /** Without the i-th smallest. */
  Sample without(int i) {
    double[] rest = new double[sorted.length - 1];
    System.arraycopy(sorted, 0, rest, 0, i);
    System.arraycopy(sorted, i + 1, rest, i, rest.length - i);
    return new Sample(rest, step);
  }

  static double mean(double[] values) {
    // about the first, so that a common offset costs no digits
    double origin = values[0];
    return origin + Arrays.stream(values).map(v -> v - origin).sum() / values.length;
  }

  static double deviation(double[] values) {
    if (values.length < 2) {
      return 0;
    }
    double mean = mean(values);
    double squares = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    return Math.sqrt(squares / (values.length - 1));
  }
}
