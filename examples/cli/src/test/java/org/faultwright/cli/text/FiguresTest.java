package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.faultwright.pack.Effort;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiguresTest {

  @ParameterizedTest
  @CsvSource({
    "0.62, 62 %",
    "0.1, 10 %",
    "0.0999, 10 %",
    "0.099, 9.9 %",
    "0.05, 5 %",
    "0.0042, 0.4 %",
    "0.001, 0.1 %",
    "0.0009, below 0.1 %",
    "1e-300, below 0.1 %",
    "0, 0 %",
    "1, 100 %",
    "0.9841, 98 %",
    "0.987, 98.7 %",
    "0.999, 99.9 %",
    "0.99951, above 99.9 %"
  })
  void percent_hasFewDigits(double p, String text) {
    assertThat(Figures.percent(p)).isEqualTo(text);
  }

  @Property
  void percent_isNeverMoreCertainThanItIs(@ForAll @DoubleRange(min = 0, max = 1) double p) {
    String text = Figures.percent(p);
    assertThat(text.equals("0 %")).isEqualTo(p == 0);
    assertThat(text.equals("100 %")).isEqualTo(p == 1);
  }

  @Test
  void percent_mustBeAProbability() {
    assertThatThrownBy(() -> Figures.percent(1.2)).hasMessage("p must be in [0, 1]: 1.2");
    assertThatThrownBy(() -> Figures.percent(Double.NaN)).hasMessage("p must be in [0, 1]: NaN");
  }

  @ParameterizedTest
  @CsvSource({
    "20, 20 s",
    "60, 1 min",
    "90, 1 min 30 s",
    "600, 10 min",
    "630, 10 min",
    "5400, 1 h 30 min",
    "28800, 8 h",
    "172800, 2 d"
  })
  void time_isShort(long seconds, String text) {
    assertThat(Figures.time(Duration.ofSeconds(seconds))).isEqualTo(text);
  }

  @Test
  void time_keepsHandsAndWaitingApart() {
    assertThat(Figures.time(new Effort(Duration.ofMinutes(5), Duration.ofMinutes(15))))
        .isEqualTo("5 min hands on, 15 min waiting");
    assertThat(Figures.time(new Effort(Duration.ofMinutes(5), Duration.ZERO))).isEqualTo("5 min");
    assertThat(Figures.time(new Effort(Duration.ZERO, Duration.ofHours(1))))
        .isEqualTo("1 h waiting");
    assertThat(Figures.time(Effort.NONE)).isEqualTo("no time");
  }

  @ParameterizedTest
  @CsvSource({"12.3, 12", "9.94, 9.9", "3, 3", "0.04, 0", "-2.5, -2.5", "150.5, 150", "0, 0"})
  void money_hasNoSignOfACurrency(double amount, String text) {
    assertThat(Figures.money(amount)).isEqualTo(text);
  }
}
