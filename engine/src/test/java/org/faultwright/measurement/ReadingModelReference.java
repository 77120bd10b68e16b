package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadingModelReference {

  /**
   * JCGM 106:2012, clause 7: the breakdown voltage of a Zener diode, at most -5.40 V (values from
   * memory, recomputed: PHI(1.4)).
   */
  @Test
  void pConforms_zenerDiode() {
    Reference limit =
        new Reference.Within(Dimension.VOLTAGE, OptionalDouble.empty(), OptionalDouble.of(-5.40));
    ReadingModel model = ReadingModel.of(limit, List.of());
    assertThat(model.pConforms(ReadingValue.parse("-5.47 V", Dimension.VOLTAGE), 0.05))
        .isCloseTo(0.919243, within(1e-6));
  }

  /** Closed form: PHI(2) - PHI(-2), from standard tables (value from memory, recomputed). */
  @Test
  void pConforms_inTheMiddleOfALimitOfTwoStandardUncertainties() {
    ReadingModel model =
        ReadingModel.of(new Reference.Around(Dimension.VOLTAGE, 0.62, 0.02), List.of());
    assertThat(model.pConforms(ReadingValue.parse("0.62 V", Dimension.VOLTAGE), 0.01))
        .isCloseTo(0.954499736, within(1e-9));
  }

  /**
   * JCGM 106:2012, 9.5, resistors of 1500 ohm made with a deviation of 0.12 ohm for a tolerance of
   * 0.20 ohm: 9.56 % do not conform (values from memory, recomputed).
   */
  @Test
  void pConforms_resistorsBeforeInspection() {
    ReadingModel model =
        ReadingModel.of(new Reference.Around(Dimension.RESISTANCE, 1500, 0.20), List.of());
    assertThat(model.pConforms(ReadingValue.parse("1500 ohm", Dimension.RESISTANCE), 0.12))
        .isCloseTo(0.904419, within(1e-6));
  }

  /** Quantiles of the normal distribution, standard tables (values from memory, recomputed). */
  @ParameterizedTest
  @CsvSource({"0.80, 0.8416", "0.90, 1.2816", "0.95, 1.6449", "0.99, 2.3263", "0.999, 3.0902"})
  void pConforms_atAQuantileAboveOneLimit(double p, double z) {
    Reference limit =
        new Reference.Within(Dimension.VOLTAGE, OptionalDouble.of(5), OptionalDouble.empty());
    ReadingModel model = ReadingModel.of(limit, List.of());
    double u = 0.01;
    assertThat(
            model.pConforms(
                new ReadingValue.Measured(new Quantity(5 + z * u, Dimension.VOLTAGE)), u))
        .isCloseTo(p, within(2e-5));
    assertThat(
            model.pConforms(
                new ReadingValue.Measured(new Quantity(5 - z * u, Dimension.VOLTAGE)), u))
        .isCloseTo(1 - p, within(2e-5));
  }

  /**
   * Closed form: two normals of equal width, a misread apart, have the likelihood ratio {@code
   * exp((m - middle) * distance / variance)}, whose variance falls with the number of readings.
   */
  @Test
  void likelihood_ofSeveralReadings_followsTheNormalRatio() {
    double sd = 0.02;
    Reference normal = new Reference.Around(Dimension.VOLTAGE, 0.50, 2 * sd);
    Reference off = new Reference.Around(Dimension.VOLTAGE, 0.52, 2 * sd);
    ReadingModel model =
        ReadingModel.of(normal, List.of(new ReadingModel.StateRange("off", Optional.of(off))));
    double uSystematic = 0.01;
    double uRandom = 0.03;
    List<ReadingValue> readings =
        List.of(
            ReadingValue.parse("0.514 V", Dimension.VOLTAGE),
            ReadingValue.parse("0.522 V", Dimension.VOLTAGE),
            ReadingValue.parse("0.518 V", Dimension.VOLTAGE));
    double variance = sd * sd + uSystematic * uSystematic + uRandom * uRandom / 3;
    double expected = Math.exp((0.518 - 0.51) * 0.02 / variance);
    double[] likelihood = model.likelihood(readings, uSystematic, uRandom);
    // A misread adds half a percent to both at most.
    assertThat(likelihood[1] / likelihood[0]).isCloseTo(expected, within(0.005 * expected));
  }
}
