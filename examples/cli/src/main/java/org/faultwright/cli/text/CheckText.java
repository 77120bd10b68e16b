package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.diagnosis.CaseCheck;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.Pack;

/** What came of running the cases of a pack: each failure in full, the rest as a number. */
public final class CheckText {

  private final Page page;
  private final Pack pack;
  private int passed;
  private int failed;
  private int idle;

  /** Begins a page about the cases of a pack. */
  public CheckText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /** Notes a case that expects nothing. */
  public void expectsNothing() {
    idle++;
  }

  /**
   * Adds what came of a case.
   *
   * @param file where the case stands
   */
  public void add(CaseCheck.Result result, String file) {
    if (result.passed()) {
      passed++;
      return;
    }
    failed++;
    page.gap();
    page.hanging("FAILED  ", Ink.DANGER, result.caseFile().name() + " (" + file + ")", Ink.STRONG);
    for (CaseCheck.Failure failure : result.failures()) {
      page.labelled("expected", Ink.PLAIN, failure.expected());
      page.labelled("but", Ink.PLAIN, failure.actual());
    }
    for (WhyCause why : result.why()) {
      page.item(
          "What weighed most for "
              + why.cause()
              + " ("
              + Figures.percent(why.pAtFirst())
              + " by the complaint alone, now "
              + Figures.percent(why.pNow())
              + "):");
      WhyText.writeFacts(page, pack, why);
    }
  }

  /** Whether no case has failed. */
  public boolean allPassed() {
    return failed == 0;
  }

  /** The page with a line that counts. */
  public Page finish() {
    List<String> counts = new ArrayList<>();
    counts.add(passed + " as expected");
    if (failed > 0) {
      counts.add(failed + " FAILED");
    }
    if (idle > 0) {
      counts.add(idle + " expecting nothing");
    }
    if (failed > 0) {
      page.gap();
    }
    return page.text(pack.id() + " " + pack.version() + ": " + String.join(", ", counts));
  }
}
