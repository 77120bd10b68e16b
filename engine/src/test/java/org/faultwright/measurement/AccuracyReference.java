package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** JCGM 100:2008, 4.3.7 and 4.4.5 (values from memory, recomputed). */
class AccuracyReference {

  private static final double SEVEN_DIGITS = 1e-7;

  @Test
  void rectangular_isHalfWidthOverRootThree() {
    assertThat(new Accuracy(0, 1, 0).standardUncertainty(123))
        .isCloseTo(0.5773503, within(SEVEN_DIGITS));
  }

  @Test
  void resolution_isCountOverRootTwelve() {
    assertThat(new Accuracy(0, 0, 1).standardUncertainty(123))
        .isCloseTo(0.2886751, within(SEVEN_DIGITS));
  }

  @Test
  void meter_halfAPercentAndTwoCountsAtFiveVolts() {
    assertThat(new Accuracy(0.005, 0.02, 0).standardUncertainty(5.00))
        .isCloseTo(0.0259808, within(SEVEN_DIGITS));
    assertThat(new Accuracy(0.005, 0.02, 0.01).standardUncertainty(5.00))
        .isCloseTo(0.0261406, within(SEVEN_DIGITS));
  }
}
