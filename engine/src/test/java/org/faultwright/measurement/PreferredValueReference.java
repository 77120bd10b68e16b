package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Resistors of the series E24, IEC 60063, marked by IEC 60062 (values from memory, recomputed). */
class PreferredValueReference {

  /** Not 10^(k/24) rounded: 2.7 to 4.7 and 8.2 differ from that. */
  private static final double[] E24 = {
    1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6,
    6.2, 6.8, 7.5, 8.2, 9.1, 10.0
  };

  @ParameterizedTest
  @ValueSource(
      strings = {
        "1_0", "1_1", "1_2", "1_3", "1_5", "1_6", "1_8", "2_0", "2_2", "2_4", "2_7", "3_0", "3_3",
        "3_6", "3_9", "4_3", "4_7", "5_1", "5_6", "6_2", "6_8", "7_5", "8_2", "9_1"
      })
  void parse_readsTheMark(String mark) {
    double value = Double.parseDouble(mark.replace('_', '.'));
    assertThat(E24).contains(value);
    assertThat(ohms(mark.replace('_', 'R'))).isCloseTo(value, within(1e-12));
    assertThat(ohms(mark.replace('_', 'k'))).isCloseTo(value * 1e3, within(1e-9));
    assertThat(ohms(mark.replace('_', 'M'))).isCloseTo(value * 1e6, within(1e-6));
    assertThat(ohms("0R" + mark.replace("_", ""))).isCloseTo(value / 10, within(1e-12));
  }

  private static double ohms(String mark) {
    return Quantity.parse(mark, Dimension.RESISTANCE).si();
  }

  /**
   * Tolerances of 5 % do leave gaps: from 1.3 k (1.365) to 1.5 k (1.425) for one. A reading halfway
   * between the limits of two neighbours keeps to neither in a gap, and else to both (enumeration:
   * a gap is where the next value is more than 1.05/0.95 times this one).
   */
  @Test
  void pConforms_findsTheGapsOfFivePercent() {
    List<Double> gapsAbove = new ArrayList<>();
    for (int i = 0; i + 1 < E24.length; i++) {
      double between = (1.05 * E24[i] + 0.95 * E24[i + 1]) / 2 * 1e3;
      double pThis = pConforms(E24[i] * 1e3, between);
      assertThat(pConforms(E24[i + 1] * 1e3, between)).isEqualTo(pThis);
      if (pThis == 0) {
        gapsAbove.add(E24[i]);
      }
    }
    assertThat(gapsAbove).containsExactly(1.3, 1.6, 1.8, 2.4, 2.7, 5.6, 8.2);
  }

  private static double pConforms(double nominal, double reading) {
    Reference marked = new Reference.Around(Dimension.RESISTANCE, nominal, 0.05 * nominal);
    return ReadingModel.of(marked, List.of())
        .pConforms(new ReadingValue.Measured(new Quantity(reading, Dimension.RESISTANCE)), 0);
  }
}
