package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.measurement.knowngood.PinReference.Reason;
import org.junit.jupiter.api.Test;

class KnownGoodTest {

  private static final KnownGood USUAL = new KnownGood(ReferencePolicy.USUAL);
  private static final KnownGood DROPPING =
      new KnownGood(new ReferencePolicy(0.95, 0.95, 0.01, true));

  /** Ten readings about 0.450 V that look normal. */
  private static final double[] TEN = {
    0.444, 0.446, 0.447, 0.449, 0.450, 0.450, 0.451, 0.453, 0.454, 0.456
  };

  /** By hand: mean 0.45, squares 36+16+9+1+0+0+1+9+16+36 = 124 over 9. */
  @Test
  void normalReadings_giveMeanAndFactorTimesDeviation() {
    PinReference reference = USUAL.reference(volts(TEN));
    double deviation = Math.sqrt(124 / 9.0) / 1000;
    assertThat(reference.mean().orElseThrow()).isCloseTo(0.45, within(1e-12));
    assertThat(reference.deviation().orElseThrow()).isCloseTo(deviation, within(1e-12));
    assertThat(reference.outliers()).isEmpty();
    assertThat(reference.normality()).isInstanceOf(Normality.Tested.class);
    PinReference.AsNormal result = (PinReference.AsNormal) reference.result();
    assertThat(result.isCounted()).isTrue();
    // factor: Meeker, Hahn, Escobar, Statistical Intervals, Table J.5b
    assertThat(result.factor()).isCloseTo(3.393, within(5e-4));
    assertThat(((Reference.Around) result.reference()).tolerance())
        .isCloseTo(3.393 * deviation, within(1e-5));
  }

  @Test
  void outlier_isNamedAndKept_unlessItIsToBeDropped() {
    double[] values = DoubleStream.concat(DoubleStream.of(TEN), DoubleStream.of(0.520)).toArray();
    PinReference kept = USUAL.reference(volts(values));
    assertThat(kept.outliers()).hasSize(1);
    assertThat(kept.outliers().get(0).reading().board()).isEqualTo("b11");
    assertThat(kept.outliers().get(0).dropped()).isFalse();
    assertThat(kept.used()).isEqualTo(11);
    // with it the readings are not normal, and all of them lie within
    PinReference.DistributionFreely free = (PinReference.DistributionFreely) kept.result();
    assertThat(free.reference().low().orElseThrow()).isCloseTo(0.4435, within(1e-9));
    assertThat(free.reference().high().orElseThrow()).isCloseTo(0.5205, within(1e-9));
    assertThat(free.boardsNeeded()).isEqualTo(93);
    // Wilks: of eleven readings the extremes hold c with confidence 1 - 11 c^10 + 10 c^11
    double c = free.pCoverage();
    assertThat(1 - 11 * Math.pow(c, 10) + 10 * Math.pow(c, 11)).isCloseTo(0.95, within(1e-9));

    PinReference dropped = DROPPING.reference(volts(values));
    assertThat(dropped.outliers().get(0).dropped()).isTrue();
    assertThat(dropped.used()).isEqualTo(10);
    assertThat(dropped.result()).isEqualTo(USUAL.reference(volts(TEN)).result());
  }

  @Test
  void boardsThatAllShowTheSame_areNotTakenForTheSame() {
    PinReference reference = USUAL.reference(volts(0.45, 0.45, 0.45, 0.45, 0.45, 0.45, 0.45, 0.45));
    assertThat(reference.normality()).isEqualTo(new Normality.TooCoarse());
    Reference.Around around =
        (Reference.Around) ((PinReference.AsNormal) reference.result()).reference();
    double k = ToleranceFactor.twoSided(8, 0.95, 0.95);
    assertThat(around.tolerance()).isCloseTo(k * 0.001 / Math.sqrt(12), within(1e-12));
  }

  @Test
  void fewBoards_goByPractice() {
    // common practice, no source: 10 % or 30 mV, whichever is larger
    assertPractice(0.62, 0.062, 0.62);
    assertPractice(0.2, 0.03, 0.2, 0.201);
    assertPractice(0.45, 0.045, 0.44, 0.45, 0.46);
  }

  private static void assertPractice(double about, double tolerance, double... values) {
    PinReference.ByPractice result =
        (PinReference.ByPractice) USUAL.reference(volts(values)).result();
    assertThat(((Reference.Around) result.reference()).nominal()).isCloseTo(about, within(0.001));
    assertThat(((Reference.Around) result.reference()).tolerance())
        .isCloseTo(tolerance, within(0.001));
    assertThat(result.isCounted()).isFalse();
    assertThat(result.factor().isPresent()).isEqualTo(values.length > 1);
  }

  @Test
  void fewBoardsThatDisagree_giveNone() {
    assertThat(USUAL.reference(volts(0.45, 0.6)).result())
        .isEqualTo(new PinReference.Missing(Reason.BOARDS_DISAGREE));
  }

  @Test
  void overRangeIsAStateOfItsOwn() {
    assertThat(USUAL.reference(pin(3)).result())
        .isEqualTo(new PinReference.AlwaysOverRange(new Reference.OverRange(Dimension.VOLTAGE)));
    PinReference mixed = USUAL.reference(pin(1, TEN));
    assertThat(mixed.overRange()).isEqualTo(1);
    assertThat(mixed.mean().orElseThrow()).isCloseTo(0.45, within(1e-12));
    assertThat(mixed.result()).isEqualTo(new PinReference.Missing(Reason.SOMETIMES_OVER_RANGE));
    PinReference none = USUAL.reference(pin(0));
    assertThat(none.result()).isEqualTo(new PinReference.Missing(Reason.NOT_READ));
    assertThat(none.mean()).isEmpty();
  }

  @Test
  void intervalsPastAllSense_giveNone() {
    PinReference wild = USUAL.reference(volts(-90e3, 90e3, -80e3, 80e3));
    assertThat(wild.result()).isEqualTo(new PinReference.Missing(Reason.TOO_WIDE));
  }

  /** Ten readings with one limit; factor 2.911 of one side, Montgomery and Runger, Table XII. */
  @Test
  void oneLimit_hasAFactorOfItsOwn() {
    double deviation = Math.sqrt(124 / 9.0) / 1000;
    Reference.Within atLeast = limit(Side.AT_LEAST, TEN);
    assertThat(atLeast.low().orElseThrow()).isCloseTo(0.45 - 2.911 * deviation, within(1e-5));
    assertThat(atLeast.high()).isEmpty();
    Reference.Within atMost = limit(Side.AT_MOST, TEN);
    assertThat(atMost.high().orElseThrow()).isCloseTo(0.45 + 2.911 * deviation, within(1e-5));
    assertThat(atMost.low()).isEmpty();
    // common practice, no source: 10 % or 30 mV
    assertThat(limit(Side.AT_LEAST, 0.5).low().orElseThrow()).isCloseTo(0.45, within(1e-9));
    // not normal: the smallest, less half a step
    double[] far = DoubleStream.concat(DoubleStream.of(TEN), DoubleStream.of(0.520)).toArray();
    assertThat(limit(Side.AT_LEAST, far).low().orElseThrow()).isCloseTo(0.4435, within(1e-9));
  }

  @Test
  void lowerLimitOfNothing_isNone() {
    assertThat(USUAL.reference(sided(Side.AT_LEAST, 0.01, 0.3, 0.1, 0.2)).result())
        .isEqualTo(new PinReference.Missing(Reason.TOO_WIDE));
  }

  private static Reference.Within limit(Side side, double... values) {
    PinReference.Established result =
        (PinReference.Established) USUAL.reference(sided(side, values)).result();
    return (Reference.Within) result.reference();
  }

  private static PinReadings sided(Side side, double... values) {
    PinReadings pin = volts(values);
    return new PinReadings(
        pin.id(), pin.pin(), pin.net(), pin.dimension(), pin.step(), side, pin.readings());
  }

  @Test
  void policyIsChecked() {
    assertThatThrownBy(() -> new ReferencePolicy(0.4, 0.9, 0.01, false))
        .hasMessage("pCoverage must be in [0.5, 0.9999]: 0.4");
    assertThatThrownBy(() -> new ReferencePolicy(0.9, 0.99999, 0.01, false))
        .hasMessage("pConfidence must be in [0.5, 0.9999]: 0.99999");
    assertThatThrownBy(() -> new ReferencePolicy(0.9, 0.9, Double.NaN, false))
        .hasMessage("pSignificance must be in (0, 0.5]: NaN");
    // the far corner is worked out, too
    assertThat(DistributionFree.boardsNeeded(2, 0.9999, 0.9999)).isBetween(100_000, 130_000);
    assertThat(ToleranceFactor.twoSided(4, 0.9999, 0.9999)).isBetween(10.0, 1000.0);
  }

  static PinReadings volts(double... values) {
    return pin(0, values);
  }

  /** With readings over-range on further boards. */
  static PinReadings pin(int overRange, double... values) {
    List<PinReadings.OnBoard> readings = new ArrayList<>();
    for (double value : values) {
      readings.add(
          new PinReadings.OnBoard(
              "b" + (readings.size() + 1),
              new ReadingValue.Measured(new Quantity(value, Dimension.VOLTAGE))));
    }
    for (int i = 0; i < overRange; i++) {
      readings.add(
          new PinReadings.OnBoard(
              "b" + (readings.size() + 1), new ReadingValue.OverRange(Dimension.VOLTAGE)));
    }
    return new PinReadings(
        "cc1", Optional.empty(), Optional.empty(), Dimension.VOLTAGE, 0.001, Side.BOTH, readings);
  }
}
