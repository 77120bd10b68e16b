package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.Stream;
import org.faultwright.measurement.Reference.Around;
import org.junit.jupiter.api.Test;

/** What to expect of another good device after some. */
class PredictionReference {

  /**
   * Readings with mean 50.10 and standard deviation 1.31, n = 5, as in Hahn and Meeker, Statistical
   * Intervals, 1991, chapter 4 (from memory); the interval 50.10 +- 2.776 * 1.31 sqrt(1 + 1/5)
   * recomputed here with t(.975, 4) = 2.776 of the standard tables.
   */
  @Test
  void tolerance_isThePredictionIntervalOfTheNextOne() {
    Around next = Around.predicting(Dimension.VOLTAGE, List.of(51.4, 49.5, 48.7, 49.3, 51.6));
    assertThat(next.nominal()).isCloseTo(50.10, within(1e-9));
    double s = Math.sqrt(Stream.of(1.3, .6, 1.4, .8, 1.5).mapToDouble(d -> d * d).sum() / 4);
    assertThat(s).isCloseTo(1.31, within(0.005));
    assertThat(next.tolerance()).isCloseTo(2.776 * s * Math.sqrt(1.2), within(0.002));
  }

  /** t(.975, nu) of the standard tables: nu 1 12.706, 2 4.303, 7 2.365. */
  @Test
  void fewSamples_makeItWide() {
    assertThat(tolerance(2)).isCloseTo(12.706 * Math.sqrt(0.5) * Math.sqrt(1.5), within(0.001));
    assertThat(tolerance(3))
        .isCloseTo(4.303 * Math.sqrt(1.0 / 3) * Math.sqrt(4.0 / 3), within(0.001));
    assertThat(tolerance(8))
        .isCloseTo(2.365 * Math.sqrt(2.0 / 7) * Math.sqrt(9.0 / 8), within(0.001));
    assertThatThrownBy(() -> Around.predicting(Dimension.VOLTAGE, List.of(1.0)))
        .hasMessage("samples must be two or more: 1");
  }

  /** Of n samples the first and the second half of a volt off 0: squares sum to 0.5, 0.5, 2. */
  private static double tolerance(int n) {
    List<Double> samples =
        switch (n) {
          case 2 -> List.of(-0.5, 0.5);
          case 3 -> List.of(-0.5, 0.0, 0.5).stream().map(x -> x * Math.sqrt(4.0 / 3)).toList();
          default -> List.of(-0.5, 0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 0.5);
        };
    return Around.predicting(Dimension.VOLTAGE, samples).tolerance();
  }
}
