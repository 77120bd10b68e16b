package org.faultwright.problem;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ProblemReportGolden {

  private static final String FILE = "packs/wren-handset/charging/pack.yaml";

  private static final SourceTexts TEXTS =
      SourceTexts.NONE.with(FILE, "\n".repeat(41) + "        open: [fuse-opne]\n\tred: 1\n");

  private static Problem fuse() {
    return Problem.error(
        "unknown-cause",
        new Span(FILE, 42, 16, 9),
        "step 'port-sweep' points at cause 'fuse-opne', which this pack does not have",
        "did you mean 'fuse-open'?");
  }

  @Test
  void problem_isShownWithItsLineAndTheWayOut() {
    assertThat(ProblemReport.of(List.of(fuse()), TEXTS))
        .isEqualTo(
            """
            packs/wren-handset/charging/pack.yaml:42:16: error[unknown-cause]: step 'port-sweep' points at cause 'fuse-opne', which this pack does not have
               42 |         open: [fuse-opne]
                  |                ^^^^^^^^^
               did you mean 'fuse-open'?
            1 error
            """);
  }

  @Test
  void problems_areSortedCountedAndShownOnce() {
    Problem warning = Problem.warning("symptom-unused", new Span(FILE, 7, 1, 4), "nobody asks", "");
    Problem missing =
        new Problem(
            "unreadable-file",
            Severity.ERROR,
            Optional.empty(),
            "there is no such file: x",
            Optional.empty());
    assertThat(ProblemReport.of(List.of(fuse(), warning, missing, fuse()), SourceTexts.NONE))
        .isEqualTo(
            """
            error[unreadable-file]: there is no such file: x
            packs/wren-handset/charging/pack.yaml:7:1: warning[symptom-unused]: nobody asks
            packs/wren-handset/charging/pack.yaml:42:16: error[unknown-cause]: step 'port-sweep' points at cause 'fuse-opne', which this pack does not have
               did you mean 'fuse-open'?
            2 errors, 1 warning
            """);
  }

  @Test
  void noProblems_areNoText() {
    assertThat(ProblemReport.of(List.of(), TEXTS)).isEmpty();
    assertThat(ProblemReport.count(List.of())).isEqualTo("no problems");
  }

  @Test
  void longLine_isCutAroundTheCulprit() {
    SourceTexts texts = SourceTexts.NONE.with("f", "a".repeat(300) + "XY" + "b".repeat(300));
    String report =
        ProblemReport.of(List.of(Problem.error("x", new Span("f", 1, 301, 2), "m", "")), texts);
    String[] lines = report.split("\n");
    assertThat(lines[1]).hasSizeLessThan(140).contains("...aaa").contains("XYbbb").endsWith("...");
    assertThat(lines[2].indexOf('^')).isEqualTo(lines[1].indexOf('X'));
    assertThat(lines[2]).endsWith("^^");
  }

  @Test
  void charactersThatATerminalActsUpon_areNotPrinted() {
    SourceTexts texts = SourceTexts.NONE.with("f", "\ttitle: \u001b[31mred \u202eback");
    String report =
        ProblemReport.of(
            List.of(Problem.error("x", new Span("f", 1, 2, 5), "bad \u001b[2J", "")), texts);
    assertThat(report)
        .isEqualTo(
            """
            f:1:2: error[x]: bad ?[2J
                1 |  title: ?[31mred ?back
                  |  ^^^^^
            1 error
            """);
  }

  @Test
  void placePastTheEndOfALine_stillHasACaret() {
    String report =
        ProblemReport.of(
            List.of(Problem.error("x", new Span("f", 1, 4, 9), "m", "")),
            SourceTexts.NONE.with("f", "ab"));
    assertThat(report.split("\n")[2]).isEqualTo("      |   ^");
  }
}
