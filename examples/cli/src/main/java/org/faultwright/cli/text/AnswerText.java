package org.faultwright.cli.text;

import java.util.List;
import java.util.Optional;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.diagnosis.Scrutiny;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.Pack;

/**
 * An answer for a technician: danger first, then how likely and why, and what to do next at the
 * very end. A terminal shows the end of a long text, so the dangers stand once more right above it.
 */
public final class AnswerText {

  private final Pack pack;
  private final boolean all;

  /**
   * Writes answers about a device of this pack.
   *
   * @param all whether to show every cause, every alternative and every step that is not open
   */
  public AnswerText(Pack pack, boolean all) {
    this.pack = pack;
    this.all = all;
  }

  /**
   * Writes the answer.
   *
   * @param leader why the leader leads, in short; empty where nothing ranks or something else was
   *     asked for
   * @param asked causes that were asked about, in full
   */
  public void write(Page page, Answer answer, List<WhyCause> leader, List<WhyCause> asked) {
    write(page, answer, leader, asked, Optional.empty());
  }

  /**
   * As {@link #write(Page, Answer, List, List)}.
   *
   * @param scrutiny a closer look; empty where none is shown
   */
  public void write(
      Page page,
      Answer answer,
      List<WhyCause> leader,
      List<WhyCause> asked,
      Optional<Scrutiny> scrutiny) {
    page.text(
        "CASE "
            + answer.caseFile().name()
            + ": "
            + pack.title()
            + (pack.invented() ? " (invented)" : ""));
    Dangers.write(page, pack, answer);
    writeOutlook(page, answer);
    leader.forEach(why -> WhyText.writeShort(page, pack, why));
    asked.forEach(why -> WhyText.writeFull(page, pack, why));
    scrutiny.ifPresent(look -> ScrutinyText.write(page, pack, look));
    ReadingsAside.write(page, pack, answer, all);
    FactsAside.writeConflicts(page, pack, answer);
    FactsAside.writeNotCounted(page, pack, answer, all);
    if (all) {
      Alternatives.writeBlocked(page, pack, answer);
    }
    Alternatives.write(page, pack, answer, all);
    Dangers.write(page, pack, answer);
    NextStep.write(page, pack, answer);
  }

  private void writeOutlook(Page page, Answer answer) {
    if (answer.outlook() instanceof Posterior posterior) {
      Ranking.write(page, pack, posterior, all);
    } else if (answer.outlook() instanceof Outlook.ImpossibleEvidence impossible) {
      FactsAside.writeImpossible(page, pack, answer, impossible.clash());
    } else if (answer.outlook() instanceof Outlook.OverBudget wide) {
      page.heading("TOO MANY POSSIBILITIES");
      page.item(
          "An exact answer would take about "
              + Figures.times(wide.predicted() / wide.budget())
              + " as much work as is allowed. Take out facts that say little; the advice below"
              + " rests on no ranking.");
    }
  }
}
