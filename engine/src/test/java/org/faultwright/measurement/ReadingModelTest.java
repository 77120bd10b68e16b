package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.faultwright.measurement.Dimension.CURRENT;
import static org.faultwright.measurement.Dimension.RESISTANCE;
import static org.faultwright.measurement.Dimension.TEMPERATURE;
import static org.faultwright.measurement.Dimension.VOLTAGE;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class ReadingModelTest {

  private static final Reference DIODE = new Reference.Around(VOLTAGE, 0.62, 0.05);
  private static final int NORMAL = 0;
  private static final int OPEN = 1;
  private static final int SHORT = 2;
  private static final int LOW = 3;
  private static final int HIGH = 4;
  private static final double U = 0.004;

  private static ReadingModel model(Reference normal, String... states) {
    return ReadingModel.of(
        normal,
        Arrays.stream(states).map(s -> new ReadingModel.StateRange(s, Optional.empty())).toList());
  }

  private static ReadingModel diode() {
    return model(DIODE, "open", "short", "low", "high");
  }

  private static ReadingValue volts(String text) {
    return ReadingValue.parse(text, VOLTAGE);
  }

  @Test
  void classify_namesTheObviousState() {
    ReadingModel model = diode();
    assertThat(model.states()).isEqualTo(5);
    assertThat(model.classify(volts("0.62 V"), U)).isEqualTo(NORMAL);
    assertThat(model.classify(volts("0.60 V"), U)).isEqualTo(NORMAL);
    assertThat(model.classify(volts("OL"), U)).isEqualTo(OPEN);
    assertThat(model.classify(volts("0.002 V"), U)).isEqualTo(SHORT);
    assertThat(model.classify(volts("-0.001 V"), U)).isEqualTo(SHORT);
    assertThat(model.classify(volts("0.31 V"), U)).isEqualTo(LOW);
    assertThat(model.classify(volts("0.80 V"), U)).isEqualTo(HIGH);
  }

  @Test
  void classify_takesOverRangeAsNormal_whenTheReferenceIsOverRange() {
    ReadingModel model = model(new Reference.OverRange(VOLTAGE), "short", "low");
    assertThat(model.classify(volts("OL"), U)).isEqualTo(0);
    assertThat(model.classify(volts("0.003 V"), U)).isEqualTo(1);
    assertThat(model.classify(volts("0.45 V"), U)).isEqualTo(2);
  }

  @Test
  void classify_knowsThatAnOpenLineCarriesNoCurrent() {
    ReadingModel model = model(new Reference.Around(CURRENT, 0.5, 0.1), "open", "short");
    assertThat(model.classify(ReadingValue.parse("2 mA", CURRENT), 0.001)).isEqualTo(1);
    assertThat(model.classify(ReadingValue.parse("2 A", CURRENT), 0.02)).isEqualTo(2);
  }

  @Test
  void classify_followsStatedRanges() {
    Reference diodeGone =
        new Reference.Within(VOLTAGE, OptionalDouble.of(1.1), OptionalDouble.of(1.4));
    ReadingModel model =
        ReadingModel.of(
            DIODE,
            List.of(
                new ReadingModel.StateRange("upper-diode-only", Optional.of(diodeGone)),
                new ReadingModel.StateRange("high", Optional.empty())));
    assertThat(model.classify(volts("1.25 V"), U)).isEqualTo(1);
    assertThat(model.classify(volts("0.75 V"), U)).isEqualTo(2);
  }

  @Test
  void likelihood_ofOneOverRange_movesOddsByFourHundredAtMost() {
    double[] likelihood = diode().likelihood(List.of(volts("OL")), 0, U);
    assertThat(likelihood[OPEN] / likelihood[NORMAL]).isBetween(300.0, 400.0);
  }

  @Test
  void likelihood_followsTheMajority_whenSomeReadingsAreOverRange() {
    ReadingModel model = diode();
    ReadingValue over = volts("OL");
    ReadingValue good = volts("0.62 V");
    double[] mostlyGood = model.likelihood(List.of(good, over, good), 0, U);
    double[] mostlyOpen = model.likelihood(List.of(over, good, over), 0, U);
    assertThat(mostlyGood[NORMAL]).isGreaterThan(50 * mostlyGood[OPEN]);
    assertThat(mostlyOpen[OPEN]).isGreaterThan(50 * mostlyOpen[NORMAL]);
    double[] even = model.likelihood(List.of(good, over), 0, U);
    assertThat(even[NORMAL] / even[OPEN]).isBetween(0.1, 10.0);
  }

  @Test
  void likelihood_staysAboveZero_whenManyReadingsContradictEachOther() {
    List<ReadingValue> readings = new java.util.ArrayList<>();
    readings.addAll(java.util.Collections.nCopies(500, volts("OL")));
    readings.add(volts("0.62 V"));
    assertThat(diode().likelihood(readings, 0, U)).doesNotContain(0, Double.NaN);
  }

  @Test
  void nearLimit_isTrueOnlyWithinTwoUncertaintiesOfALimit() {
    ReadingModel model = diode();
    assertThat(model.nearLimit(volts("0.572 V"), U)).isTrue();
    assertThat(model.nearLimit(volts("0.568 V"), U)).isTrue();
    assertThat(model.nearLimit(volts("0.58 V"), U)).isFalse();
    assertThat(model.nearLimit(volts("0.56 V"), U)).isFalse();
    assertThat(model.nearLimit(volts("OL"), U)).isFalse();
  }

  @Test
  void pConforms_ofOverRange_dependsOnTheReference() {
    ReadingValue over = new ReadingValue.OverRange(RESISTANCE);
    Reference insulation =
        new Reference.Within(RESISTANCE, OptionalDouble.of(1e4), OptionalDouble.empty());
    Reference joint =
        new Reference.Within(RESISTANCE, OptionalDouble.empty(), OptionalDouble.of(0.5));
    assertThat(model(insulation).pConforms(over, 0)).isEqualTo(1);
    assertThat(model(joint).pConforms(over, 0)).isEqualTo(0);
    assertThat(model(new Reference.OverRange(RESISTANCE)).pConforms(over, 0)).isEqualTo(1);
    assertThat(
            model(new Reference.OverRange(RESISTANCE))
                .pConforms(ReadingValue.parse("4k7", RESISTANCE), 10))
        .isEqualTo(0);
  }

  @Test
  void of_saysWhichStateLacksARange() {
    assertThatThrownBy(() -> model(new Reference.Around(TEMPERATURE, 30, 5), "open"))
        .hasMessage("state must say where readings lie with this reference: open");
    Reference atMost =
        new Reference.Within(VOLTAGE, OptionalDouble.empty(), OptionalDouble.of(0.05));
    assertThatThrownBy(() -> model(atMost, "low"))
        .hasMessage("state must say where readings lie with this reference: low");
    assertThat(ReadingModel.knowsRange("high", atMost)).isTrue();
    assertThat(ReadingModel.knowsRange("low", atMost)).isFalse();
    assertThatThrownBy(() -> model(DIODE, "low", "low"))
        .hasMessage("state must be named once: low");
  }

  /** A number says nothing of a state that is seen, and its name nearly all. */
  @Test
  void likelihood_takesAStateWithoutRangeByItsNameOnly() {
    ReadingModel model = model(DIODE, "unsteady", "short");
    double[] number = model.likelihood(List.of(volts("0.62 V")), 0, 0.001);
    assertThat(number[1]).isBetween(number[2], number[0]);
    double[] named = model.likelihood(List.of(new ReadingValue.Named("unsteady", VOLTAGE)), 0, 0);
    assertThat(named[1] / named[0])
        .isCloseTo(98, org.assertj.core.api.Assertions.within(1e-9)); // 0.98 against 0.02 / 2
    assertThat(named[2]).isEqualTo(named[0]);
    assertThatThrownBy(
            () -> model.likelihood(List.of(new ReadingValue.Named("leaky", VOLTAGE)), 0, 0))
        .hasMessage("state must be one of [normal, unsteady, short]: leaky");
  }

  @Test
  void likelihood_refusesWhatMakesNoSense() {
    ReadingModel model = diode();
    assertThatThrownBy(() -> model.likelihood(List.of(), 0, 0))
        .hasMessage("readings must not be empty");
    assertThatThrownBy(() -> model.likelihood(List.of(volts("OL")), -1, 0))
        .hasMessage("uSystematic must be finite and not negative: -1.0");
    assertThatThrownBy(() -> model.likelihood(List.of(volts("OL")), 0, Double.NaN))
        .hasMessage("uRandom must be finite and not negative: NaN");
    assertThatThrownBy(() -> model.likelihood(List.of(ReadingValue.parse("4k7", RESISTANCE)), 0, 0))
        .hasMessage("expected a voltage, not a resistance: 4.7 k\u2126");
    Reference ohms = new Reference.Around(RESISTANCE, 100, 5);
    assertThatThrownBy(
            () ->
                ReadingModel.of(
                    DIODE, List.of(new ReadingModel.StateRange("off", Optional.of(ohms)))))
        .hasMessage("expected a voltage, not a resistance: off");
  }

  @Test
  void unstatedAccuracy_isOnePercentAndACount() {
    // sqrt((0.01 * 0.62 + 0.001)^2 / 3 + 0.001^2 / 12), closed form
    assertThat(Accuracy.whenUnstated(VOLTAGE).standardUncertainty(0.62))
        .isCloseTo(
            Math.sqrt(0.0072 * 0.0072 / 3 + 1e-6 / 12),
            org.assertj.core.api.Assertions.within(1e-15));
  }
}
