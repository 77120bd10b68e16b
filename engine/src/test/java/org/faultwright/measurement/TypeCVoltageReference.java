package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Voltages on the CC pins of USB Type-C, Release 2.0 (August 2019), Tables 4-25 and 4-36 (from
 * public notes that quote them): vRa below 0.20 V, vRd 0.25 to 0.61 V for the default current, 0.70
 * to 1.16 V for 1.5 A, 1.31 to 2.04 V for 3 A. Voltages of dividers by closed form.
 */
class TypeCVoltageReference {

  private static final int DEFAULT = 0;
  private static final int POWERED_CABLE = 1;
  private static final int MEDIUM = 2;
  private static final int LARGE = 3;

  private static final ReadingModel CC =
      ReadingModel.of(
          volts(0.25, 0.61),
          List.of(
              new ReadingModel.StateRange("ra", Optional.of(volts(0, 0.20))),
              new ReadingModel.StateRange("1a5", Optional.of(volts(0.70, 1.16))),
              new ReadingModel.StateRange("3a", Optional.of(volts(1.31, 2.04)))));

  /** A hand-held meter: 0.5 % and 2 counts of 1 mV. */
  private static double u(double volts) {
    return new Accuracy(0.005, 0.002, 0.001).standardUncertainty(volts);
  }

  private static Reference volts(double low, double high) {
    return new Reference.Within(Dimension.VOLTAGE, OptionalDouble.of(low), OptionalDouble.of(high));
  }

  private static ReadingValue read(double volts) {
    return new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE));
  }

  /**
   * 5.1 kohm below 56, 22 or 10 kohm to 5 V, and below sources of 80, 180 and 330 uA. So a cable
   * with 10 kohm where 56 belong reads as a source of 3 A.
   */
  @ParameterizedTest
  @CsvSource({
    "0.4173, " + DEFAULT,
    "0.9410, " + MEDIUM,
    "1.6887, " + LARGE,
    "0.4080, " + DEFAULT,
    "0.9180, " + MEDIUM,
    "1.6830, " + LARGE,
    "0.10, " + POWERED_CABLE
  })
  void classify_findsTheCurrentThatIsOffered(double volts, int state) {
    assertThat(CC.classify(read(volts), u(volts))).isEqualTo(state);
    assertThat(CC.pConforms(read(volts), u(volts)))
        .isCloseTo(state == DEFAULT ? 1 : 0, within(1e-9));
  }

  /**
   * Worst cases: 56 kohm - 20 %, 22 and 10 kohm - 5 %, 5.1 kohm + 10 %, 5.5 V. They come out at the
   * printed limits, within 4 mV: too near for such a meter to call them out of bounds. The
   * thresholds of the table, 0.66 and 1.23 V, lie beyond doubt. The 2.11 V of the last row is no
   * threshold, only a point as far beyond.
   */
  @ParameterizedTest
  @CsvSource({"0.25, 0.61, 0.6121, 0.66", "0.70, 1.16, 1.1639, 1.23", "1.31, 2.04, 2.0420, 2.11"})
  void nearLimit_holdsForTheWorstDevice_butNotForTheThreshold(
      double low, double high, double worst, double beyond) {
    ReadingModel model = ReadingModel.of(volts(low, high), List.of());
    assertThat(model.nearLimit(read(worst), u(worst))).isTrue();
    assertThat(model.pConforms(read(worst), u(worst))).isLessThan(0.5);
    assertThat(model.nearLimit(read(beyond), u(beyond))).isFalse();
    assertThat(model.pConforms(read(beyond), u(beyond))).isLessThan(1e-9);
  }

  /** Both CC pins tied together, 2.55 kohm below 56: 0.2178 V, which is in neither range. */
  @Test
  void pConforms_isNothing_whenBothPinsAreTied() {
    ReadingModel ra = ReadingModel.of(volts(0, 0.20), List.of());
    assertThat(CC.pConforms(read(0.2178), u(0.2178))).isLessThan(1e-9);
    assertThat(ra.pConforms(read(0.2178), u(0.2178))).isLessThan(1e-9);
  }
}
