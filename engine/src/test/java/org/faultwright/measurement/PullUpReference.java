package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** Pull-ups and levels of an I2C bus: NXP UM10204, Rev. 6, section 7.1, formulas (1) and (2). */
class PullUpReference {

  /** At least (3.3 V - 0.4 V) / 3 mA, and at most 1000 ns / (0.8473 * 400 pF). */
  private static final Reference STANDARD_MODE = ohms(966.7, 2950.5);

  private static Reference ohms(double low, double high) {
    return new Reference.Within(
        Dimension.RESISTANCE, OptionalDouble.of(low), OptionalDouble.of(high));
  }

  private static double pConforms(String reading) {
    ReadingValue value = ReadingValue.parse(reading, Dimension.RESISTANCE);
    double u =
        new Accuracy(0.01, 2, 1)
            .standardUncertainty(Quantity.parse(reading, Dimension.RESISTANCE).si());
    return ReadingModel.of(STANDARD_MODE, List.of()).pConforms(value, u);
  }

  /** Three modules with 10 kohm each and one with 4.7 kohm: 1950.2 ohm in parallel. */
  @Test
  void pConforms_holdsForModulesTogether_butNotForEachAlone() {
    assertThat(pConforms("1k9502")).isCloseTo(1, within(1e-9));
    assertThat(pConforms("4k7")).isCloseTo(0, within(1e-9));
    assertThat(pConforms("10k")).isCloseTo(0, within(1e-9));
    // the largest one of fast mode at 400 pF is too small for a driver of 3 mA
    assertThat(pConforms("885.2R")).isCloseTo(0, within(1e-9));
  }

  /** Fast mode, 400 pF at 3.3 V: at most 885.2 ohm by the edge, at least 966.7 by the driver. */
  @Test
  void limits_areRefused_whereNoPullUpWillDo() {
    assertThatThrownBy(() -> ohms(966.7, 885.2)).hasMessage("low must be below high: 966.7, 885.2");
  }

  /** A line at rest has at least 0.7 of the supply, here 2.31 V; 0.3 of it, 0.99 V, is low. */
  @Test
  void nearLimit_atTheLeastHighLevel() {
    ReadingModel idle =
        ReadingModel.of(
            new Reference.Within(
                Dimension.VOLTAGE, OptionalDouble.of(2.31), OptionalDouble.empty()),
            List.of());
    assertThat(idle.pConforms(ReadingValue.parse("2.31 V", Dimension.VOLTAGE), 0.01))
        .isCloseTo(0.5, within(1e-12));
    assertThat(idle.nearLimit(ReadingValue.parse("2.31 V", Dimension.VOLTAGE), 0.01)).isTrue();
    assertThat(idle.nearLimit(ReadingValue.parse("3.3 V", Dimension.VOLTAGE), 0.01)).isFalse();
    assertThat(idle.pConforms(ReadingValue.parse("0.99 V", Dimension.VOLTAGE), 0.01))
        .isCloseTo(0, within(1e-12));
  }
}
