package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Published critical values and worked examples of tests for outliers. */
class GrubbsReference {

  /** The tables have three places, and some entries are one off in the last. */
  private static final double TO_TABLES = 1.1e-3;

  /**
   * F. E. Grubbs, Technometrics 11 (1969), Table I, one-sided at 2.5 % and 0.5 %, which is
   * two-sided at 5 % and 1 % (values from memory, recomputed).
   */
  @ParameterizedTest
  @CsvSource({
    "4, 1.481, 1.496",
    "5, 1.715, 1.764",
    "6, 1.887, 1.973",
    "7, 2.020, 2.139",
    "8, 2.126, 2.274",
    "9, 2.215, 2.387",
    "10, 2.290, 2.482",
    "15, 2.549, 2.806",
    "20, 2.709, 3.001",
    "25, 2.822, 3.135",
    "30, 2.908, 3.236"
  })
  void criticalValues(int n, double at5, double at1) {
    assertThat(Grubbs.critical(n, 0.05)).isCloseTo(at5, within(TO_TABLES));
    assertThat(Grubbs.critical(n, 0.01)).isCloseTo(at1, within(TO_TABLES));
  }

  /**
   * NIST/SEMATECH e-Handbook, 1.3.5.17.1: eight mass spectrometer readings of uranium, G = 2.4687
   * against 2.032 (one-sided at 5 %, which is two-sided at 10 %) (value from memory, recomputed).
   */
  @Test
  void handbookExample_ofOneOutlier() {
    Sample sample =
        new Sample(
            new double[] {199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57}, 0.01);
    assertThat((sample.most() - sample.mean()) / sample.deviation())
        .isCloseTo(2.4687, within(1e-4));
    assertThat(Grubbs.critical(8, 0.1)).isCloseTo(2.032, within(5e-4));
    assertThat(Grubbs.outliers(sample, 0.1)).containsExactly(245.57);
  }

  /**
   * B. Rosner, Technometrics 25 (1983), his example of 54 values; also NIST/SEMATECH e-Handbook,
   * 1.3.5.17.3: three outliers at 5 %, though the first two alone are none (values from memory,
   * recomputed).
   */
  @Test
  void severalOutliersHideEachOther() {
    Sample sample =
        new Sample(
            new double[] {
              -0.25, 0.68, 0.94, 1.15, 1.20, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56,
              1.58, 1.65, 1.69, 1.70, 1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09, 2.10,
              2.14, 2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.40, 2.47, 2.54, 2.62, 2.64, 2.90, 2.92,
              2.92, 2.93, 3.21, 3.26, 3.30, 3.59, 3.68, 4.30, 4.64, 5.34, 5.42, 6.01
            },
            0.01);
    double first = (sample.most() - sample.mean()) / sample.deviation();
    assertThat(first).isCloseTo(3.119, within(5e-4));
    assertThat(Grubbs.critical(54, 0.05)).isCloseTo(3.158, within(1.1e-3)).isGreaterThan(first);
    assertThat(Grubbs.outliers(sample, 0.05)).containsExactly(6.01, 5.42, 5.34);
  }

  @Test
  void stepsOfTheDisplayAreNoOutliers() {
    double[] values = new double[20];
    java.util.Arrays.fill(values, 0.45);
    values[7] = 0.451;
    assertThat(Grubbs.outliers(new Sample(values, 0.001), 0.05)).isEmpty();
    values[7] = 0.46;
    assertThat(Grubbs.outliers(new Sample(values, 0.001), 0.05)).containsExactly(0.46);
  }

  @Test
  void threeReadingsHaveNoOutlier() {
    assertThat(Grubbs.outliers(new Sample(new double[] {1, 1, 9}, 0.01), 0.05)).isEmpty();
  }
}
