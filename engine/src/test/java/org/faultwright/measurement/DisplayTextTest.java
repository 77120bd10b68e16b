package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is noted from a display, with and without its unit. */
class DisplayTextTest {

  @ParameterizedTest
  @CsvSource({
    "452, VOLTAGE, true, , 452 mV",
    "0.452, VOLTAGE, true, , 452 mV",
    ".452, VOLTAGE, true, , 452 mV",
    "'0,452', VOLTAGE, true, , 452 mV",
    "-3, VOLTAGE, true, , -3 mV",
    "1452, VOLTAGE, true, , 1.452 V",
    "0L, VOLTAGE, true, , OL",
    "3.81, VOLTAGE, false, , 3.81 V",
    "22.5, TEMPERATURE, false, , 22.5 \u00b0C",
    "0, RESISTANCE, false, , 0 \u2126",
    "0.00, CURRENT, false, , 0 A",
    "4.7, RESISTANCE, false, kohm, 4.7 k\u2126",
    "452.5, VOLTAGE, true, mV, 452.5 mV",
    "4k7, RESISTANCE, false, , 4.7 k\u2126",
    "0R1, RESISTANCE, false, mohm, 100 m\u2126",
  })
  void bareNumber_isTakenWhereOnlyOneUnitCanBeMeant(
      String text, Dimension kind, boolean diode, String unit, String expected) {
    assertThat(DisplayText.parse(text, kind, diode, Optional.ofNullable(unit)))
        .hasToString(expected);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "381|VOLTAGE|false|unit is missing, for example 0.452 V: 381",
        "4.7|RESISTANCE|false|unit is missing, for example 4.7 k\u2126: 4.7",
        "0.35|CURRENT|false|unit is missing, for example 120 mA: 0.35",
        "45.2|VOLTAGE|true|unit is missing: in diode mode a number with a decimal point is volts, and"
            + " these are too many; write 45.2 mV if that is meant: 45.2",
        "-5 ohm|VOLTAGE|true|expected a voltage such as 0.452 V: -5 ohm",
      })
  void bareNumber_isRefusedWhereItMayMeanTwoThings(
      String text, Dimension kind, boolean diode, String message) {
    assertThatThrownBy(() -> DisplayText.parse(text, kind, diode, Optional.empty()))
        .hasMessage(message);
  }
}
