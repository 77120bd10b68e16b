package org.faultwright.cli.paper;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
  void pictureInTheDocuments_isADrawingOfThePage() throws IOException {
    assertThat(PaperExamples.paper().html())
        .contains(Files.readString(Path.of("docs/plan-example.svg")));
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
