package org.faultwright.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.faultwright.rules.Advice;
import org.junit.jupiter.api.Test;

class AdviceWordsTest {

  @Test
  void words_areThoseOfTheKindsOfAdvice() {
    List<String> kinds =
        Arrays.stream(Advice.Kind.values())
            .map(k -> k.name().toLowerCase(Locale.ROOT).replace('_', '-'))
            .toList();
    assertThat(AdviceWords.ALL).containsExactlyInAnyOrderElementsOf(kinds);
  }
}
