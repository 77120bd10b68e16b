package org.faultwright.explanation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import org.faultwright.measurement.Conformance;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.GuardBand;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The words beside a reading. */
class ReadingWordsTest {

  /** JCGM 106:2012, the Zener diode of clause 7: at most -5.40 V, u = 0.05 V (from memory). */
  private static final Reference AT_MOST =
      new Reference.Within(Dimension.VOLTAGE, OptionalDouble.empty(), OptionalDouble.of(-5.40));

  private static String words(String shown, double factor) {
    return ReadingWords.of(
        Conformance.of(
            AT_MOST, ReadingValue.parse(shown, Dimension.VOLTAGE), new GuardBand(factor, 0.05)));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "-5.60 V | in tolerance, above 99.9 %",
        "-5.50 V | in tolerance, 97.7 %",
        "-5.47 V | in tolerance, 91.9 %, but inside by less than its uncertainty",
        "-5.42 V | too close to call, in tolerance with 65.5 %",
        "-5.38 V | too close to call, in tolerance with 34.5 %",
        "-5.33 V | out of tolerance, 91.9 %, but outside by less than its uncertainty",
        "-5.30 V | out of tolerance, 97.7 %",
        "5 V | out of tolerance, above 99.9 %",
        "OL | out of tolerance"
      })
  void words_saySideAndProbability(String shown, String words) {
    assertThat(words(shown, 0)).isEqualTo(words);
  }

  @Test
  void guardBand_isNamedWhereItDecides() {
    assertThat(words("-5.47 V", 1))
        .isEqualTo(
            "in tolerance, 91.9 %, but inside by less than its uncertainty; refused by the guard"
                + " band");
    assertThat(words("-5.51 V", 1)).isEqualTo("in tolerance, 98.6 %");
    assertThat(words("-5.35 V", -1)).endsWith("; let pass by the guard band");
  }

  @Test
  void coarseMeter_isTooCloseToCallInTheMidst() {
    Reference narrow =
        new Reference.Within(Dimension.VOLTAGE, OptionalDouble.of(0.99), OptionalDouble.of(1.01));
    ReadingValue one = ReadingValue.parse("1 V", Dimension.VOLTAGE);
    assertThat(ReadingWords.of(Conformance.of(narrow, one, new GuardBand(0, 0.1))))
        .isEqualTo("too close to call, in tolerance with 8.0 %");
  }
}
