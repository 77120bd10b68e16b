package org.faultwright.cli.paper;

import java.time.ZonedDateTime;
import java.util.Optional;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.Pack;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.RepairOrNot;

/**
 * A plan for paper, with all that it rests on.
 *
 * @param pack the pack
 * @param answer to the same facts, for alarms, holds and what goes before the plan
 * @param plan the plan
 * @param limits how far it was worked out
 * @param mostSteps as many of the likeliest steps are shown, from 1
 * @param repairOrNot whether a repair is worth it, and what the customer can be told; empty where
 *     no function is known to be lost
 * @param compared the plan beside rules of thumb, where that is asked for
 * @param shopFile the name of the file with the shop's rates; empty: those of a shop of which
 *     nothing is known
 * @param made when
 * @param madeBy program and version
 */
public record PlanPaper(
    Pack pack,
    Answer answer,
    Plan plan,
    PlanLimits limits,
    int mostSteps,
    Optional<RepairOrNot> repairOrNot,
    Optional<PlanComparison> compared,
    Optional<String> shopFile,
    ZonedDateTime made,
    String madeBy) {

  /** The title of the page. */
  String title() {
    return "Plan: " + answer.caseFile().title().orElse(answer.caseFile().name());
  }

  /** As one HTML file that needs nothing from outside. */
  public String html() {
    return HtmlPaper.of(title(), Contents.of(this));
  }

  /** As Markdown (CommonMark with tables). */
  public String markdown() {
    return MarkdownPaper.of(title(), Contents.of(this));
  }
}
