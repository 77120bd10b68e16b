package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Published factors of normal tolerance intervals. */
class ToleranceFactorReference {

  /** Half a unit of the fourth place, and a little. */
  private static final double TO_FOUR_PLACES = 0.6e-4;

  /** Handbook tables of three places. */
  private static final double TO_TABLES = 5e-4;

  private static final double TO_TWO_PLACES = 5.5e-3;

  /** NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3: n = 43, 90 %, 99 % confidence. */
  @Test
  void handbookExample() {
    assertThat(ToleranceFactor.twoSided(43, 0.90, 0.99)).isCloseTo(2.22283, within(1e-5));
    assertThat(ToleranceFactor.howe(43, 0.90, 0.99)).isCloseTo(2.21732, within(1e-5));
    // the interval of the example: mean 97.07, deviation 0.0268
    double half = 0.0268 * ToleranceFactor.twoSided(43, 0.90, 0.99);
    assertThat(97.07 - half).isCloseTo(97.0106, within(2e-4)); // printed with Howe's factor
    assertThat(97.07 + half).isCloseTo(97.1294, within(2e-4));
  }

  /** ISO 16269-6:2014, Annex F, one sample (m = 1); the standard rounds up in the fourth place. */
  @ParameterizedTest
  @CsvSource({
    "8, 0.90, 0.90, 2.7542",
    "16, 0.90, 0.90, 2.2537",
    "35, 0.90, 0.90, 1.9906",
    "100, 0.90, 0.90, 1.8232",
    "3, 0.90, 0.95, 6.8233",
    "9, 0.90, 0.95, 3.1323",
    "15, 0.90, 0.95, 2.7196",
    "30, 0.90, 0.95, 2.4166"
  })
  void standardTables(int n, double confidence, double coverage, double k) {
    double roundedUp =
        Math.ceil(ToleranceFactor.twoSided(n, coverage, confidence) * 1e4 - 1e-6) / 1e4;
    assertThat(roundedUp).isCloseTo(k, within(TO_FOUR_PLACES));
  }

  /** W. Q. Meeker, G. J. Hahn, L. A. Escobar, Statistical Intervals, Table J.5b, 95 % / 95 %. */
  @ParameterizedTest
  @CsvSource({"10, 3.393", "20, 2.760", "30, 2.555", "50, 2.382"})
  void textbookTable(int n, double k) {
    assertThat(ToleranceFactor.twoSided(n, 0.95, 0.95)).isCloseTo(k, within(TO_TABLES));
  }

  /**
   * Widely reprinted 95 % / 95 % factors are Howe's approximation in three places (value from
   * memory, recomputed): the exact ones are larger, by more than the tables' last digit.
   */
  @ParameterizedTest
  @CsvSource({"10, 3.3819", "20, 2.7523", "30, 2.5496", "50, 2.3788"})
  void approximationIsNarrower(int n, double howe) {
    assertThat(ToleranceFactor.howe(n, 0.95, 0.95)).isCloseTo(howe, within(TO_FOUR_PLACES));
    assertThat(ToleranceFactor.twoSided(n, 0.95, 0.95)).isGreaterThan(howe + 0.002);
  }

  /**
   * D. C. Montgomery and G. C. Runger, Applied Statistics and Probability for Engineers, Table XII,
   * one-sided. Its entry for 20 readings, 95 % with 90 % confidence, is reported to be a misprint
   * of 2.208.
   */
  @ParameterizedTest
  @CsvSource({
    "5, 0.95, 0.95, 4.203",
    "10, 0.95, 0.95, 2.911",
    "20, 0.95, 0.95, 2.396",
    "30, 0.95, 0.95, 2.220",
    "50, 0.95, 0.95, 2.065",
    "100, 0.95, 0.95, 1.927",
    "2, 0.90, 0.90, 10.253",
    "5, 0.90, 0.90, 2.742",
    "20, 0.95, 0.90, 2.208",
    "10, 0.90, 0.99, 3.048",
    "30, 0.99, 0.99, 3.447"
  })
  void oneSidedTable(int n, double coverage, double confidence, double k) {
    assertThat(ToleranceFactor.oneSided(n, coverage, confidence)).isCloseTo(k, within(TO_TABLES));
  }

  /** NIST/SEMATECH e-Handbook, 7.2.6.3: exact one-sided factor by the noncentral t. */
  @Test
  void handbookExample_ofOneSide() {
    assertThat(ToleranceFactor.oneSided(43, 0.90, 0.99)).isCloseTo(1.87395, within(1e-5));
    double limit = 97.07 + 0.0268 * ToleranceFactor.oneSided(43, 0.90, 0.99);
    assertThat(limit).isCloseTo(97.1203, within(1e-4));
  }

  /**
   * Closed form: for half of the population k sqrt n is the quantile of the central t. Standard
   * tables at 97.5 %, and JCGM 100:2008, Table G.2, 95.45 % two-sided (values from memory,
   * recomputed).
   */
  @ParameterizedTest
  @CsvSource({
    "1, 12.706, 13.97",
    "2, 4.303, 4.53",
    "3, 3.182,",
    "4, 2.776, 2.87",
    "5, 2.571,",
    "7, 2.365,",
    "10, 2.228, 2.28",
    "20, 2.086,",
    "30, 2.042,",
    "50, 2.009, 2.05",
    "100, 1.984,"
  })
  void halfOfThePopulationIsStudents(int nu, double at975, Double at9545) {
    double root = Math.sqrt(nu + 1.0);
    assertThat(root * ToleranceFactor.oneSided(nu + 1, 0.5, 0.975))
        .isCloseTo(at975, within(TO_TABLES));
    if (at9545 != null) {
      assertThat(root * ToleranceFactor.oneSided(nu + 1, 0.5, (1 + 0.9545) / 2))
          .isCloseTo(at9545, within(TO_TWO_PLACES));
    }
  }

  /** Closed form: half of the population lies above its mean, whatever the deviation. */
  @Test
  void halfOfThePopulationAtEvenOddsNeedsNoFactor() {
    assertThat(ToleranceFactor.oneSided(9, 0.5, 0.5)).isCloseTo(0, within(1e-9));
  }

  /** Closed form: very many readings tell mean and deviation, and leave the normal quantile. */
  @Test
  void manyReadingsLeaveTheNormalQuantile() {
    assertThat(ToleranceFactor.twoSided(100_000_000, 0.95, 0.95)).isCloseTo(1.96, within(5e-4));
  }

  /**
   * Closed form: with two readings x and y, mean and deviation are (x+y)/2 and |x-y|/sqrt 2. For a
   * coverage near 0 the interval has content 2 k s phi(mean), so that the factor for coverage p is
   * proportional to p; held to that and no more.
   */
  @Test
  void smallCoverageIsInProportion() {
    double one = ToleranceFactor.twoSided(2, 1e-4, 0.9);
    double two = ToleranceFactor.twoSided(2, 2e-4, 0.9);
    assertThat(two / one).isCloseTo(2, within(1e-6));
  }

  @Test
  void argumentsAreChecked() {
    assertThatThrownBy(() -> ToleranceFactor.twoSided(1, 0.9, 0.9))
        .hasMessage("n must be at least 2: 1");
    assertThatThrownBy(() -> ToleranceFactor.twoSided(9, 1, 0.9))
        .hasMessage("pCoverage must be in (0, 1): 1.0");
    assertThatThrownBy(() -> ToleranceFactor.twoSided(9, 0.9, Double.NaN))
        .hasMessage("pConfidence must be in (0, 1): NaN");
  }
}
