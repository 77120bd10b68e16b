package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class LettersTest {

  @Test
  void harmless_takesOutWhatSteersATerminal() {
    assertThat(Letters.harmless("red\u001b[31m \u009b2J\u0007!\u202egnorw\u202c"))
        .isEqualTo("red[31m 2J!gnorw");
    assertThat(Letters.harmless("a\r\nb\tc\u00a0d")).isEqualTo("a  b c d");
  }

  @Test
  void harmless_keepsTheSignsOfTheTrade() {
    assertThat(Letters.harmless("4.7 k\u03a9, 60 \u00b0C, \u00b15 %"))
        .isEqualTo("4.7 k\u03a9, 60 \u00b0C, \u00b15 %");
  }

  @Test
  void ascii_spellsOutTheSignsOfTheTrade() {
    assertThat(
            Letters.ascii("4.7 k\u03a9, 3 \u00b5F, 60 \u00b0C, \u00b15 %, caf\u00e9 \u2192 \u96fb"))
        .isEqualTo("4.7 kohm, 3 uF, 60 deg C, +-5 %, cafe -> ?");
  }

  @Test
  void columns_countWhatTheEyeSees() {
    assertThat(Letters.columns("abc")).isEqualTo(3);
    assertThat(Letters.columns("e\u0301")).isEqualTo(1);
    assertThat(Letters.columns("\u96fb\u6c60")).isEqualTo(4);
  }
}
