package org.faultwright.cli.text;

import static org.assertj.core.api.Assertions.assertThat;

import org.faultwright.cli.Golden;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How a plan looks on a screen. */
class PlanTextGolden {

  @ParameterizedTest
  @CsvSource({"80, true", "40, true", "40, false"})
  void plan(int width, boolean unicode) {
    Page page = new Page(new Screen(width, unicode, false));
    new PlanText(page, Examples.PACK).write(Examples.alarming(), PlanExamples.plan());

    assertThat(page.lines()).allMatch(line -> Letters.columns(line) <= width);
    Golden.assertSame(
        "plan-" + width + (unicode ? "-utf8" : "-ascii"), String.join("\n", page.lines()) + "\n");
  }
}
