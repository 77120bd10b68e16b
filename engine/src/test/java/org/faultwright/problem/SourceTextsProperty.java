package org.faultwright.problem;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.StringLength;

class SourceTextsProperty {

  @Property
  void lines_endWhereYamlEndsThem(
      @ForAll
          @Chars({'\r', '\n', '\u0085', '\u2028', '\u2029', ' '})
          @CharRange(from = 'a', to = 'c')
          @StringLength(max = 12)
          String text) {
    assertThat(SourceTexts.lines(text))
        .containsExactly(text.split("\r\n|[\r\n\u0085\u2028\u2029]", -1));
  }
}
