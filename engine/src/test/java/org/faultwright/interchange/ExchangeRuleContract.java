package org.faultwright.interchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What every problem of a file in an open format owes to its author: a page. */
class ExchangeRuleContract {

  @ParameterizedTest
  @EnumSource
  void page_saysWhatAndWhyAndWhatToPrefer(ExchangeRule rule) {
    assertThat(Path.of("docs/checks", rule.id() + ".md"))
        .content()
        .startsWith("# " + rule.id() + "\n")
        .contains("**What.** ", "**Why.** ", "**Avoid**", "**Prefer**")
        .containsAnyOf("open format", "Open-PSA", "BIF");
  }
}
