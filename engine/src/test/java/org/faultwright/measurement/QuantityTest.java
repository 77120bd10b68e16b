package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.faultwright.measurement.Dimension.CAPACITANCE;
import static org.faultwright.measurement.Dimension.CURRENT;
import static org.faultwright.measurement.Dimension.FREQUENCY;
import static org.faultwright.measurement.Dimension.RESISTANCE;
import static org.faultwright.measurement.Dimension.TEMPERATURE;
import static org.faultwright.measurement.Dimension.TIME;
import static org.faultwright.measurement.Dimension.VOLTAGE;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Prefixes: SI brochure, 9th edition, table 7. Letter in place of the decimal point: IEC 60062
 * (values from memory).
 */
class QuantityTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.452 V      | 0.452   | VOLTAGE",
        "452 mV       | 0.452   | VOLTAGE",
        "452mV        | 0.452   | VOLTAGE",
        "452 mv       | 0.452   | VOLTAGE",
        ".45 V        | 0.45    | VOLTAGE",
        "5. V         | 5       | VOLTAGE",
        "0,452 V      | 0.452   | VOLTAGE",
        "-5.47 V      | -5.47   | VOLTAGE",
        "\u22125.47 V | -5.47   | VOLTAGE",
        "3V3          | 3.3     | VOLTAGE",
        "1V8          | 1.8     | VOLTAGE",
        "1e3 V        | 1000    | VOLTAGE",
        "2,2 k\u03a9  | 2200    | RESISTANCE",
        "4.7 k\u2126  | 4700    | RESISTANCE",
        "4.7 kohm     | 4700    | RESISTANCE",
        "4.7 KOhm     | 4700    | RESISTANCE",
        "4k7          | 4700    | RESISTANCE",
        "4K7          | 4700    | RESISTANCE",
        "4k7 ohm      | 4700    | RESISTANCE",
        "4R7          | 4.7     | RESISTANCE",
        "0R1          | 0.1     | RESISTANCE",
        "0R           | 0       | RESISTANCE",
        "2M2          | 2200000 | RESISTANCE",
        "47k          | 47000   | RESISTANCE",
        "10M          | 1e7     | RESISTANCE",
        "10 m\u2126   | 0.01    | RESISTANCE",
        "10 M\u2126   | 1e7     | RESISTANCE",
        "1.2e-3 A     | 0.0012  | CURRENT",
        "330 uA       | 330e-6  | CURRENT",
        "330 \u00b5A  | 330e-6  | CURRENT",
        "330 \u03bcA  | 330e-6  | CURRENT",
        "1A5          | 1.5     | CURRENT",
        "100n         | 1e-7    | CAPACITANCE",
        "4n7          | 4.7e-9  | CAPACITANCE",
        "4p7 F        | 4.7e-12 | CAPACITANCE",
        "2m2 F        | 2.2e-3  | CAPACITANCE",
        "10 uF        | 1e-5    | CAPACITANCE",
        "25 \u00b0C   | 25      | TEMPERATURE",
        "25 C         | 25      | TEMPERATURE",
        "\u221240\u2103 | -40   | TEMPERATURE",
        "30 s         | 30      | TIME",
        "2 min        | 120     | TIME",
        "1.5 h        | 5400    | TIME",
        "20 ms        | 0.02    | TIME",
        "32.768 kHz   | 32768   | FREQUENCY",
        "38.4 MHz     | 38.4e6  | FREQUENCY",
      })
  void parse_readsBenchNotation(String text, double si, Dimension dimension) {
    assertThat(Quantity.parse(text)).isEqualTo(new Quantity(si, dimension));
    assertThat(Quantity.parse("  " + text + " ", dimension)).isEqualTo(Quantity.parse(text));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "VOLTAGE     | 0.452    | unit is missing, for example 0.452 V: 0.452",
        "VOLTAGE     | 452 mA   | expected a voltage such as 0.452 V: 452 mA",
        "RESISTANCE  | 3V3      | expected a resistance such as 4.7 k\u2126: 3V3",
        "VOLTAGE     | 4k7      | expected a voltage such as 0.452 V: 4k7",
        "TEMPERATURE | 25 F     | expected a temperature such as 25 \u00b0C: 25 F",
        "RESISTANCE  | 4m7      | unit is missing: m alone may be milliohm or millifarad, for example 4.7 k\u2126: 4m7",
        "RESISTANCE  | 47K      | unit is missing: K alone may be kilohm or kelvin, for example 4.7 k\u2126: 47K",
        "VOLTAGE     | 452 MV   | voltage must be in [-100 kV, 100 kV]: 452 MV",
        "VOLTAGE     | 1e9 V    | voltage must be in [-100 kV, 100 kV]: 1 GV",
        "TEMPERATURE | -300 C   | temperature must be in [-273.15 \u00b0C, 5000 \u00b0C]: -300 \u00b0C",
        "TIME        | -1 s     | time must be in [0 s, 320000000 s]: -1 s",
        "VOLTAGE     | 0.4 x    | unit 'x' is not known, for example 0.452 V: 0.4 x",
        "TIME        | 5 S      | unit 'S' is not known, for example 30 s: 5 S",
        "TEMPERATURE | 5 mC     | unit 'mC' is not known, for example 25 \u00b0C: 5 mC",
        "VOLTAGE     | 1,250 V  | comma may be a decimal comma or part a thousand: write 1.250 or 1250: 1,250 V",
        "VOLTAGE     | NaN V    | value must be a number with a unit, for example 0.452 V: NaN V",
        "VOLTAGE     | Infinity | value must be a number with a unit, for example 0.452 V: Infinity",
        "VOLTAGE     | OL       | value must be a number with a unit, for example 0.452 V: OL",
        "VOLTAGE     | ''       | value is missing, for example 0.452 V: ",
        "VOLTAGE     | 1.2.3 V  | unit '.3 V' is not known, for example 0.452 V: 1.2.3 V",
        "VOLTAGE     | 1e999 V  | value must be finite: Infinity",
      })
  void parse_saysWhatIsWrong(Dimension expected, String text, String message) {
    assertThatThrownBy(() -> Quantity.parse(text, expected))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            message.equals("value is missing, for example 0.452 V:") ? message + " " : message);
  }

  @Test
  void parse_saysWhatIsMissing_whenNoKindIsExpected() {
    assertThatThrownBy(() -> Quantity.parse("12"))
        .hasMessage("unit is missing, for example 0.452 V or 4.7 k\u2126: 12");
  }

  @Test
  void parse_refusesLongText() {
    assertThatThrownBy(() -> Quantity.parse("1".repeat(1000) + " V"))
        .hasMessage("value must have at most 40 characters: 1002");
  }

  @Test
  void constructor_refusesWhatIsNoNumber() {
    assertThatThrownBy(() -> new Quantity(Double.NaN, VOLTAGE))
        .hasMessage("value must be finite: NaN");
    assertThatThrownBy(() -> new Quantity(Double.POSITIVE_INFINITY, VOLTAGE))
        .hasMessage("value must be finite: Infinity");
  }

  @Test
  void toString_choosesPrefix() {
    assertThat(new Quantity(0.452, VOLTAGE)).hasToString("452 mV");
    assertThat(new Quantity(3.3, VOLTAGE)).hasToString("3.3 V");
    assertThat(new Quantity(4700, RESISTANCE)).hasToString("4.7 k\u2126");
    assertThat(new Quantity(-0.0, RESISTANCE)).hasToString("0 \u2126");
    assertThat(new Quantity(330e-6, CURRENT)).hasToString("330 \u00b5A");
    assertThat(new Quantity(1e-7, CAPACITANCE)).hasToString("100 nF");
    assertThat(new Quantity(0.5, TEMPERATURE)).hasToString("0.5 \u00b0C");
    assertThat(new Quantity(3600, TIME)).hasToString("3600 s");
    assertThat(new Quantity(38.4e6, FREQUENCY)).hasToString("38.4 MHz");
  }

  @Test
  void format_roundsToDigits() {
    assertThat(new Quantity(0.1 + 0.2, VOLTAGE).format(3)).isEqualTo("300 mV");
    assertThat(new Quantity(4.7384e3, RESISTANCE).format(3)).isEqualTo("4.74 k\u2126");
    assertThat(new Quantity(999.96, RESISTANCE).format(4)).isEqualTo("1 k\u2126");
    assertThatThrownBy(() -> new Quantity(1, VOLTAGE).format(0))
        .hasMessage("significantDigits must be at least 1: 0");
  }

  @ParameterizedTest
  @CsvSource({"OL", "ol", "0L", "O.L", "' OL '"})
  void readingValue_readsOverRange(String text) {
    assertThat(ReadingValue.parse(text, VOLTAGE)).isEqualTo(new ReadingValue.OverRange(VOLTAGE));
  }

  @Test
  void readingValue_readsValue() {
    assertThat(ReadingValue.parse("452 mV", VOLTAGE))
        .isEqualTo(new ReadingValue.Measured(new Quantity(0.452, VOLTAGE)));
    assertThatThrownBy(() -> ReadingValue.parse("4k7", VOLTAGE))
        .hasMessage("expected a voltage such as 0.452 V: 4k7");
  }
}
