package org.faultwright.cli.paper;

import org.faultwright.cli.Golden;
import org.faultwright.cli.text.PlanExamples;
import org.junit.jupiter.api.Test;

/** How a plan looks on paper. */
class PlanPaperGolden {

  @Test
  void html() {
    Golden.assertSameFile("plan-page.html", PaperExamples.paper().html());
  }

  @Test
  void markdown() {
    Golden.assertSameFile("plan-page.md", PaperExamples.paper().markdown());
  }

  @Test
  void markdown_withAnAlarm() {
    PlanPaper alarming = PaperExamples.paper(PlanExamples.pack(), PlanExamples.alarming());
    Golden.assertSameFile("plan-page-alarm.md", alarming.markdown());
  }
}
