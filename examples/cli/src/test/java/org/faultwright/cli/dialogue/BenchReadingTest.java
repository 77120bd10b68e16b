package org.faultwright.cli.dialogue;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Readings as technicians write them down. Spellings: common practice, no source. */
class BenchReadingTest {

  private static final Reference DIODE = new Reference.Around(Dimension.VOLTAGE, 0.482, 0.04);
  private static final Reference VBUS = limits(Dimension.VOLTAGE, 4.75, 5.5);
  private static final Reference AMPS =
      new Reference.Within(Dimension.CURRENT, OptionalDouble.of(0.5), OptionalDouble.empty());
  private static final Reference OHMS = new Reference.Around(Dimension.RESISTANCE, 8, 0.8);
  private static final Reference WARMTH = limits(Dimension.TEMPERATURE, 10, 45);

  @ParameterizedTest(name = "{0} is {1} V in diode mode")
  @CsvSource({
    "452, 0.452",
    "0.452, 0.452",
    ".452, 0.452",
    "'0,452', 0.452",
    "452 mV, 0.452",
    "452m, 0.452",
    "0.452V, 0.452",
    "0, 0",
    "20, 0.02",
    "1200, 1.2",
    "-0.45, -0.45"
  })
  void diodeValues(String written, double volts) {
    assertThat(si(written, DIODE)).isEqualTo(volts);
  }

  @ParameterizedTest(name = "{0} is {1} V at a supply of 5 V")
  @CsvSource({"5.08, 5.08", "5, 5", "0.3, 0.3", "5080, 5.08", "12, 12", "5V08, 5.08"})
  void supplyVoltages(String written, double volts) {
    assertThat(si(written, VBUS)).isEqualTo(volts);
  }

  @ParameterizedTest(name = "{0} is {1} A where at least half an ampere is normal")
  @CsvSource({"0.45, 0.45", "450, 0.45", "1.2, 1.2", "30, 0.03", "450 mA, 0.45", "0, 0"})
  void currents(String written, double amperes) {
    assertThat(si(written, AMPS)).isEqualTo(amperes);
  }

  @ParameterizedTest(name = "{0} is {1} ohm")
  @CsvSource({"8.2, 8.2", "4.7k, 4700", "4k7, 4700", "0R1, 0.1", "450, 450", "1M, 1e6", "8 ohm, 8"})
  void resistancesAreNeverThousandths(String written, double ohms) {
    assertThat(si(written, OHMS)).isEqualTo(ohms, within(1e-9));
  }

  @ParameterizedTest
  @CsvSource({"25, 25", "-40, -40", "450, 450"})
  void temperaturesAreNeverThousandths(String written, double celsius) {
    assertThat(si(written, WARMTH)).isEqualTo(celsius, within(1e-12));
  }

  @ParameterizedTest
  @CsvSource({"OL", "ol", "0L", "O.L", "0.l"})
  void overRangeIsSpeltAsDisplaysSpellIt(String written) {
    assertThat(BenchReading.looksLikeOne(written)).isTrue();
    assertThat(BenchReading.parse(written, point(DIODE)))
        .isEqualTo(new ReadingValue.OverRange(Dimension.VOLTAGE));
  }

  @Test
  void otherKindsAreRefused() {
    assertThatThrownBy(() -> BenchReading.parse("8 ohm", point(DIODE)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("voltage");
    assertThatThrownBy(() -> BenchReading.parse("4..5", point(DIODE)))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void wordsAreNoReadings() {
    assertThat(List.of("why", "undo", "-", "", "open", "k5")).noneMatch(BenchReading::looksLikeOne);
    assertThat(List.of("0", "-0.4", ".45", ",45", "+3")).allMatch(BenchReading::looksLikeOne);
  }

  private static double si(String written, Reference reference) {
    ReadingValue value = BenchReading.parse(written, point(reference));
    return ((ReadingValue.Measured) value).quantity().si();
  }

  private static Reference limits(Dimension dimension, double low, double high) {
    return new Reference.Within(dimension, OptionalDouble.of(low), OptionalDouble.of(high));
  }

  private static Point point(Reference reference) {
    return new Point(
        new PointId("p"),
        "Point",
        Optional.empty(),
        reference,
        new Basis.CommonPractice(),
        List.of(),
        Set.of());
  }
}
