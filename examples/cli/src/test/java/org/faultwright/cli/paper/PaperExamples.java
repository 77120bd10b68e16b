package org.faultwright.cli.paper;

import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.Optional;
import org.faultwright.cli.text.PlanExamples;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.Pack;
import org.faultwright.planning.PlanLimits;

/** Papers made by hand. */
final class PaperExamples {

  private PaperExamples() {}

  static PlanPaper paper() {
    return paper(PlanExamples.pack(), PlanExamples.answer());
  }

  static PlanPaper paper(Pack pack, Answer answer) {
    return new PlanPaper(
        pack,
        answer,
        PlanExamples.plan(),
        PlanLimits.ORDINARY,
        Optional.of("shop.yaml"),
        ZonedDateTime.of(2026, 3, 14, 9, 30, 0, 0, ZoneId.of("UTC")),
        "faultwright 0");
  }
}
