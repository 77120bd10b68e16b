package org.faultwright.cli.text;

import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.diagnosis.Posterior.Ranked;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Reason;

/** A case as it is beside the same case with more facts supposed. */
public final class SupposedText {

  private static final int MOST_LINES = 4;

  /** A smaller change of a probability is not called one. */
  private static final double LEAST_CHANGE = 0.005;

  private final Page page;
  private final Pack pack;

  /** Writes on the page about a device of the pack. */
  public SupposedText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /**
   * Writes both.
   *
   * @param facts what is supposed
   */
  public void write(Answer now, Collection<? extends Fact> facts, Answer then) {
    page.text(
        "CASE "
            + now.caseFile().name()
            + ": "
            + pack.title()
            + (pack.invented() ? " (invented)" : ""));
    page.heading("SUPPOSE");
    for (Fact fact : facts) {
      page.bullet(FactWords.of(pack, fact));
    }
    Dangers.write(page, pack, then);
    writeOutlooks(now, then);
    FactsAside.writeConflicts(page, pack, then);
    FactsAside.writeNotCounted(page, pack, then, false);
    page.gap();
    writeAdvice("NOW   ", now);
    writeAdvice("THEN  ", then);
  }

  private void writeOutlooks(Answer now, Answer then) {
    if (now.posterior().isPresent() && then.posterior().isPresent()) {
      writeMoves(now.posterior().get(), then.posterior().get());
      return;
    }
    if (then.outlook() instanceof Outlook.ImpossibleEvidence impossible) {
      FactsAside.writeImpossible(page, pack, then, impossible.clash());
    } else if (now.outlook() instanceof Outlook.ImpossibleEvidence impossible) {
      FactsAside.writeImpossible(page, pack, now, impossible.clash());
    } else {
      page.text("One of the two has too many possibilities for an exact answer.");
    }
  }

  private void writeMoves(Posterior now, Posterior then) {
    page.heading("HOW LIKELY");
    page.hanging("     now      then", Ink.PLAIN, "", Ink.PLAIN);
    Set<CauseId> shown = new LinkedHashSet<>();
    then.ranking().stream().limit(MOST_LINES).map(Ranked::cause).forEach(shown::add);
    now.ranking().stream().limit(MOST_LINES).map(Ranked::cause).forEach(shown::add);
    List<Ranked> rows =
        then.ranking().stream()
            .filter(r -> shown.contains(r.cause()))
            .sorted(Comparator.comparingDouble(r -> -r.p()))
            .toList();
    for (Ranked row : rows) {
      double before = now.p(row.cause());
      page.hanging(
          column(before) + "  " + column(row.p()) + "  " + move(before, row.p()) + "  ",
          Ink.BAR,
          Ranking.title(pack, row),
          Ink.PLAIN);
    }
  }

  private static String column(double p) {
    String number = Ranking.number(p);
    return " ".repeat(Math.max(0, 8 - number.length())) + number;
  }

  /** Which way it goes, in words where there is room. */
  private String move(double before, double after) {
    boolean same = Math.abs(after - before) < LEAST_CHANGE;
    String sign = same ? "=" : after > before ? page.sign("\u25b2", "+") : page.sign("\u25bc", "-");
    if (page.screen().isNarrow()) {
      return sign;
    }
    return sign + (same ? " same" : after > before ? " up  " : " down");
  }

  private void writeAdvice(String lead, Answer answer) {
    Advice advice = answer.advice().primary();
    String subject = Wording.subject(pack, advice);
    Optional<String> reason = advice.reasons().stream().map(Reason::words).findFirst();
    page.hanging(
        lead,
        Ink.STRONG,
        Wording.headline(pack, advice)
            + (subject.isEmpty() ? reason.map(r -> ": " + r).orElse("") : ""),
        Ink.PLAIN);
  }
}
