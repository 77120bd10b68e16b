package org.faultwright.cli.text;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.faultwright.compile.Conflict;
import org.faultwright.compile.Explanations;
import org.faultwright.compile.Sensitivity;
import org.faultwright.diagnosis.Scrutiny;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.NumberWords;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;

/** A closer look at a ranking: sets of causes, agreement of the facts, numbers that it rests on. */
final class ScrutinyText {

  private static final int MOST_NUMBERS = 3;

  /** Facts that agree this little are worth a line: e times less likely than if unrelated. */
  private static final double LEAST_CONFLICT = 1;

  private ScrutinyText() {}

  /** Writes the closer look. */
  static void write(Page page, Pack pack, Scrutiny scrutiny) {
    page.heading("A CLOSER LOOK");
    for (Explanations.Explanation e : scrutiny.sets().sets()) {
      page.hanging(
          "  ", Ink.PLAIN, Figures.percent(Math.min(1, e.p())) + "  " + words(pack, e), Ink.PLAIN);
    }
    agreement(page, pack, scrutiny.agreement());
    scrutiny.leader().numbers().stream()
        .filter(i -> Double.isFinite(i.margin()))
        .limit(MOST_NUMBERS)
        .forEach(i -> number(page, pack, i));
  }

  private static String words(Pack pack, Explanations.Explanation e) {
    if (e.causes().isEmpty()) {
      return "none of the causes";
    }
    List<String> titles = e.causes().stream().map(c -> pack.causes().get(c).title()).toList();
    return titles.size() == 1 ? titles.get(0) + ", alone" : String.join(" + ", titles);
  }

  private static void agreement(Page page, Pack pack, Conflict agreement) {
    if (agreement.measure() < LEAST_CONFLICT) {
      return;
    }
    Optional<Conflict.Expected> least =
        agreement.facts().stream().max(Comparator.comparingDouble(Conflict.Expected::surprise));
    page.item(
        "The facts agree badly: together they are "
            + Figures.times(Math.exp(Math.min(50, agreement.measure())))
            + " less likely than if they had nothing to do with one another. Least expected: "
            + FactWords.of(pack, least.orElseThrow().told().fact())
            + ".");
  }

  private static void number(Page page, Pack pack, Sensitivity.Influence i) {
    i.below().ifPresent(t -> turn(page, pack, i, "below", t));
    i.above().ifPresent(t -> turn(page, pack, i, "above", t));
  }

  private static void turn(
      Page page, Pack pack, Sensitivity.Influence i, String side, Sensitivity.Turn turn) {
    CauseId leads = turn.leads();
    page.hanging(
        "  " + page.sign("\u2192", ">") + " ",
        Ink.STRONG,
        pack.causes().get(leads).title()
            + " would lead if: "
            + NumberWords.of(pack, i.number())
            + " "
            + side
            + " "
            + percent(turn.at())
            + " (stated "
            + percent(i.value())
            + ")",
        Ink.PLAIN);
  }

  /** Two digits, since rates of single faults are small. */
  private static String percent(double p) {
    return new BigDecimal(100 * p)
            .round(new MathContext(2, RoundingMode.HALF_EVEN))
            .stripTrailingZeros()
            .toPlainString()
        + " %";
  }
}
