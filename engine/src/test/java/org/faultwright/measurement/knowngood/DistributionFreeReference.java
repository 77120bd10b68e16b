package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Published sample sizes of tolerance intervals between sorted readings. */
class DistributionFreeReference {

  /** ISO 16269-6, sample sizes for two-sided intervals (from memory, recomputed below). */
  @ParameterizedTest
  @CsvSource({
    "0.90, 0.90, 38",
    "0.90, 0.95, 46",
    "0.90, 0.99, 64",
    "0.95, 0.90, 77",
    "0.95, 0.95, 93",
    "0.95, 0.99, 130",
    "0.99, 0.90, 388",
    "0.99, 0.95, 473",
    "0.99, 0.99, 662"
  })
  void sampleSizes(double coverage, double confidence, int n) {
    assertThat(DistributionFree.boardsNeeded(2, coverage, confidence)).isEqualTo(n);
    assertThat(closedForm(n, coverage)).isGreaterThanOrEqualTo(confidence);
    assertThat(closedForm(n - 1, coverage)).isLessThan(confidence);
  }

  /** Closed form, Wilks 1941: 1 - n p^(n-1) + (n-1) p^n. */
  private static double closedForm(int n, double p) {
    return 1 - n * Math.pow(p, n - 1) + (n - 1) * Math.pow(p, n);
  }

  @Test
  void confidence_isThatOfTheClosedForm() {
    for (int n : new int[] {2, 5, 30, 93, 500}) {
      assertThat(DistributionFree.pConfidence(n, 2, 1, 0.95))
          .isCloseTo(closedForm(n, 0.95), within(1e-12));
      double coverage = DistributionFree.pCoverage(n, 2, 0.95);
      assertThat(closedForm(n, coverage)).isCloseTo(0.95, within(1e-9));
    }
  }

  /** One side: 59 readings for 95 % and 95 %; closed form 1 - p^n, Wilks 1941. */
  @ParameterizedTest
  @CsvSource({"0.95, 0.95, 59", "0.90, 0.95, 29", "0.95, 0.90, 45", "0.99, 0.99, 459"})
  void sampleSizes_ofOneSide(double coverage, double confidence, int n) {
    assertThat(DistributionFree.boardsNeeded(1, coverage, confidence)).isEqualTo(n);
    assertThat(1 - Math.pow(coverage, n)).isGreaterThanOrEqualTo(confidence);
    assertThat(1 - Math.pow(coverage, n - 1)).isLessThan(confidence);
    assertThat(DistributionFree.pConfidence(n, 1, 1, coverage))
        .isCloseTo(1 - Math.pow(coverage, n), within(1e-12));
  }

  /** By enumeration of the binomial: at least 2 r of n readings fall outside of the part. */
  @Test
  void innerRanksAreUsed_whereThereAreEnough() {
    assertThat(DistributionFree.rank(30, 2, 0.95, 0.95)).isEqualTo(1);
    assertThat(DistributionFree.rank(93, 2, 0.95, 0.95)).isEqualTo(1);
    int rank = DistributionFree.rank(500, 2, 0.95, 0.95);
    assertThat(rank).isGreaterThan(1);
    assertThat(1 - binomial(500, 2 * rank - 1, 0.05)).isGreaterThanOrEqualTo(0.95);
    assertThat(1 - binomial(500, 2 * rank + 1, 0.05)).isLessThan(0.95);
  }

  /** P(at most k of n). */
  private static double binomial(int n, int k, double p) {
    double term = Math.pow(1 - p, n);
    double sum = term;
    for (int i = 1; i <= k; i++) {
      term *= (n - i + 1.0) / i * p / (1 - p);
      sum += term;
    }
    return sum;
  }
}
