package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Guard bands, JCGM 106:2012, 8.3 (clause number from memory), and the risks they leave, 9.5. */
class GuardBandReference {

  private static final double NOMINAL = 1500;
  private static final double U_PROCESS = 0.12;
  private static final double U_METER = 0.04;
  private static final Reference TOLERANCE =
      new Reference.Around(Dimension.RESISTANCE, NOMINAL, 0.20);
  private static final ReadingModel MODEL = ReadingModel.of(TOLERANCE, List.of());

  /** Beyond so many deviations lies 1e-15 of the readings. */
  private static final double REACH = 8;

  private static final int STEPS = 2000;

  /**
   * Resistors of 1500 ohm, made with 0.12 ohm and measured with 0.04 ohm, tolerance 0.20 ohm
   * (inputs from a published script; results from memory, recomputed). How many are accepted but
   * off, and refused but good, of all that are made: the probability that one conforms, given its
   * reading and how such resistors are made, summed over the readings inside and outside of the
   * acceptance interval.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 0.20, 0.018942, 0.037208",
    "0.25, 0.18, 0.009878, 0.069027",
    "0.5, 0.16, 0.004334, 0.114657",
    "1, 0.12, 0.000469, 0.247670"
  })
  void acceptance_leavesThePublishedRisks(
      double factor, double half, double pConsumer, double pProducer) {
    Reference.Around interval =
        (Reference.Around) new GuardBand(factor, U_METER).acceptance(TOLERANCE).orElseThrow();
    assertThat(interval.nominal()).isEqualTo(NOMINAL);
    assertThat(interval.tolerance()).isCloseTo(half, within(1e-12));
    double low = NOMINAL - interval.tolerance();
    double high = NOMINAL + interval.tolerance();
    double farthest = REACH * Math.hypot(U_PROCESS, U_METER);
    assertThat(integral(y -> density(y) * (1 - pConforms(y)), low, high))
        .isCloseTo(pConsumer, within(1e-5));
    assertThat(
            integral(y -> density(y) * pConforms(y), NOMINAL - farthest, low)
                + integral(y -> density(y) * pConforms(y), high, NOMINAL + farthest))
        .isCloseTo(pProducer, within(1e-5));
  }

  /** Given a reading, the true value is normal with the mean weighted by both precisions. */
  private static double pConforms(double reading) {
    double weight = U_PROCESS * U_PROCESS / (U_PROCESS * U_PROCESS + U_METER * U_METER);
    double mean = NOMINAL + weight * (reading - NOMINAL);
    return MODEL.pConforms(ohms(mean), U_METER * Math.sqrt(weight));
  }

  /** Of the readings of all that are made. */
  private static double density(double reading) {
    double sd = Math.hypot(U_PROCESS, U_METER);
    double z = (reading - NOMINAL) / sd;
    return Math.exp(-z * z / 2) / (sd * Math.sqrt(2 * Math.PI));
  }

  private static double integral(DoubleUnaryOperator f, double from, double to) {
    double step = (to - from) / STEPS;
    double sum = (f.applyAsDouble(from) + f.applyAsDouble(to)) / 2;
    for (int i = 1; i < STEPS; i++) {
      sum += f.applyAsDouble(from + i * step);
    }
    return sum * step;
  }

  /** PHI(2 r) at the acceptance limit: 97.7 % for the usual factor (closed form). */
  @ParameterizedTest
  @CsvSource({"0, 0.5", "0.5, 0.841345", "1, 0.977250", "-1, 0.022750"})
  void acceptance_ofOneLimit_holdsItsProbability(double factor, double pConforms) {
    Reference limit =
        new Reference.Within(Dimension.VOLTAGE, OptionalDouble.empty(), OptionalDouble.of(-5.40));
    Reference.Within interval =
        (Reference.Within) new GuardBand(factor, 0.05).acceptance(limit).orElseThrow();
    assertThat(interval.low()).isEmpty();
    ReadingValue atLimit =
        new ReadingValue.Measured(new Quantity(interval.high().orElseThrow(), Dimension.VOLTAGE));
    assertThat(ReadingModel.of(limit, List.of()).pConforms(atLimit, 0.05))
        .isCloseTo(pConforms, within(1e-6));
  }

  /** JCGM 106:2012, clause 7: -5.47 V with 0.05 V, at most -5.40 V; U is 0.10 V. */
  @Test
  void accepts_theZenerDiodeOnlyWithoutAGuardBand() {
    Reference limit =
        new Reference.Within(Dimension.VOLTAGE, OptionalDouble.empty(), OptionalDouble.of(-5.40));
    ReadingValue reading = ReadingValue.parse("-5.47 V", Dimension.VOLTAGE);
    assertThat(new GuardBand(0, 0.05).accepts(limit, reading)).isTrue();
    assertThat(new GuardBand(0.69, 0.05).accepts(limit, reading)).isTrue();
    assertThat(new GuardBand(0.71, 0.05).accepts(limit, reading)).isFalse();
    assertThat(new GuardBand(1, 0.05).accepts(limit, reading)).isFalse();
  }

  @Test
  void accepts_bothSidesOfARange_andWhatIsBeyondOnlyWithoutCaution() {
    Reference range =
        new Reference.Within(Dimension.VOLTAGE, OptionalDouble.of(3.2), OptionalDouble.of(3.4));
    GuardBand usual = new GuardBand(1, 0.02);
    assertThat(usual.accepts(range, volts("3.23 V"))).isFalse();
    assertThat(usual.accepts(range, volts("3.25 V"))).isTrue();
    assertThat(usual.accepts(range, volts("3.35 V"))).isTrue();
    assertThat(usual.accepts(range, volts("3.37 V"))).isFalse();
    assertThat(usual.accepts(range, volts("OL"))).isFalse();
    assertThat(new GuardBand(-1, 0.02).accepts(range, volts("3.43 V"))).isTrue();
    assertThat(new GuardBand(-1, 0.02).accepts(range, volts("3.45 V"))).isFalse();
  }

  @Test
  void acceptance_isEmpty_whereTheBandsMeet() {
    assertThat(new GuardBand(1, 0.10).acceptance(TOLERANCE)).isEmpty();
    assertThat(new GuardBand(1, 0.11).accepts(TOLERANCE, ohms(NOMINAL))).isFalse();
    Reference range =
        new Reference.Within(Dimension.VOLTAGE, OptionalDouble.of(3), OptionalDouble.of(4));
    assertThat(new GuardBand(1, 0.25).acceptance(range)).isEmpty();
    assertThat(new GuardBand(1, 0.24).acceptance(range)).isPresent();
  }

  @Test
  void overRange_needsNoGuard() {
    Reference open = new Reference.OverRange(Dimension.VOLTAGE);
    assertThat(new GuardBand(1, 0.1).accepts(open, volts("OL"))).isTrue();
    assertThat(new GuardBand(1, 0.1).accepts(open, volts("0.5 V"))).isFalse();
  }

  @Test
  void guardBand_refusesWhatMakesNoSense() {
    assertThatThrownBy(() -> new GuardBand(Double.NaN, 0.1))
        .hasMessage("factor must be finite: NaN");
    assertThatThrownBy(() -> new GuardBand(1, -0.1))
        .hasMessage("u must be finite and not negative: -0.1");
  }

  private static ReadingValue ohms(double value) {
    return new ReadingValue.Measured(new Quantity(value, Dimension.RESISTANCE));
  }

  private static ReadingValue volts(String text) {
    return ReadingValue.parse(text, Dimension.VOLTAGE);
  }
}
