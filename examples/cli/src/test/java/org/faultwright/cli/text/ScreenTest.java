package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScreenTest {

  @Test
  void isEightyPlainAsciiColumns_whenNothingIsSaid() {
    assertThat(Screen.of(Map.of(), true)).isEqualTo(new Screen(80, false, true));
    assertThat(Screen.of(Map.of(), false)).isEqualTo(new Screen(80, false, false));
  }

  @ParameterizedTest
  @CsvSource({"40,40", "100,100", "250,100", "5,30", "0,80", "-3,80", "wide,80", "99999999999,80"})
  void widthFollowsColumns_withinWhatCanBeRead(String columns, int width) {
    assertThat(Screen.of(Map.of("COLUMNS", columns), true).width()).isEqualTo(width);
  }

  // POSIX.1-2017, 8.2: LC_ALL goes before LC_CTYPE, and that before LANG; empty counts as not set.
  @Test
  void lettersFollowTheLocale_inTheOrderOfPosix() {
    assertThat(Screen.of(Map.of("LANG", "en_GB.UTF-8"), true).unicode()).isTrue();
    assertThat(Screen.of(Map.of("LANG", "C.utf8"), true).unicode()).isTrue();
    assertThat(Screen.of(Map.of("LANG", "en_GB.UTF-8", "LC_ALL", "C"), true).unicode()).isFalse();
    assertThat(Screen.of(Map.of("LANG", "C", "LC_CTYPE", "de_DE.UTF-8"), true).unicode()).isTrue();
    assertThat(Screen.of(Map.of("LANG", "en_GB.UTF-8", "LC_ALL", ""), true).unicode()).isTrue();
    assertThat(Screen.of(Map.of("LANG", "de_DE.ISO-8859-1"), true).unicode()).isFalse();
  }

  @Test
  void colourNeedsATerminal_thatIsNotToldToGoWithout() {
    assertThat(Screen.of(Map.of(), true).colour()).isTrue();
    assertThat(Screen.of(Map.of(), false).colour()).isFalse();
    assertThat(Screen.of(Map.of("NO_COLOR", "1"), true).colour()).isFalse();
    assertThat(Screen.of(Map.of("NO_COLOR", ""), true).colour()).isTrue();
    assertThat(Screen.of(Map.of("TERM", "dumb"), true).colour()).isFalse();
  }

  @Test
  void width_mustBeReadable() {
    assertThatThrownBy(() -> new Screen(10, true, true))
        .hasMessage("width must be in [30, 100]: 10");
  }
}
