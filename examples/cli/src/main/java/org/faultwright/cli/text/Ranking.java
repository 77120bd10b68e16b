package org.faultwright.cli.text;

import java.util.List;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.diagnosis.Posterior.Ranked;
import org.faultwright.pack.Pack;

/** How likely each cause is: a number, a bar, the cause. */
final class Ranking {

  /** Rarer causes go into the last line, unless all are asked for. */
  private static final double WORTH_A_LINE = 0.01;

  private static final int MOST_LINES = 5;
  private static final int LEAST_LINES = 2;

  private Ranking() {}

  static void write(Page page, Pack pack, Posterior posterior, boolean all) {
    page.heading("HOW LIKELY");
    List<Ranked> ranking = posterior.ranking();
    int shown = all ? ranking.size() : worthALine(ranking);
    for (Ranked r : ranking.subList(0, shown)) {
      page.hanging(lead(page, r.p()), Ink.BAR, title(pack, r), Ink.PLAIN);
    }
    if (shown < ranking.size()) {
      int more = ranking.size() - shown;
      double most = ranking.get(shown).p();
      String each = most < 0.001 ? Figures.percent(most) : "at most " + Figures.percent(most);
      page.hanging(
          blank(page),
          Ink.PLAIN,
          more == 1 ? "1 other, " + each : more + " others, each " + each,
          Ink.PLAIN);
    }
  }

  /** At most so many lines, each cause on one line, and no heading. */
  static void writeBrief(Page page, Pack pack, Posterior posterior, int most) {
    List<Ranked> ranking = posterior.ranking();
    for (Ranked r : ranking.subList(0, Math.min(most, worthALine(ranking)))) {
      String lead = lead(page, r.p());
      page.hanging(lead, Ink.BAR, page.cut(title(pack, r), lead), Ink.PLAIN);
    }
  }

  static String title(Pack pack, Ranked ranked) {
    return pack.causes().get(ranked.cause()).title();
  }

  /** Number and bar, always of the same width. */
  static String lead(Page page, double p) {
    String number = number(p);
    return " ".repeat(Math.max(0, numberColumns() - number.length()))
        + number
        + "  "
        + bar(page, p)
        + "  ";
  }

  /** The number in a few columns. */
  static String number(double p) {
    // the words are too long for a column that is read from top to bottom
    return Figures.percent(p).replace("below ", "<").replace("above ", ">");
  }

  private static String blank(Page page) {
    return " ".repeat(numberColumns() + 2 + barColumns(page) + 2);
  }

  private static int numberColumns() {
    return 8;
  }

  private static int barColumns(Page page) {
    return page.screen().isNarrow() ? 6 : 20;
  }

  /** In half columns where the terminal can, so that small differences show. */
  private static String bar(Page page, double p) {
    int columns = barColumns(page);
    int halves = (int) Math.round(p * columns * 2);
    String full = page.sign("\u2588", "#").repeat(halves / 2);
    String half = halves % 2 == 1 ? page.sign("\u258c", "-") : "";
    String bar = full + half;
    if (bar.isEmpty() && p > 0) {
      bar = page.sign("\u258f", ".");
    }
    return bar + " ".repeat(columns - bar.length());
  }

  private static int worthALine(List<Ranked> ranking) {
    int lines = (int) ranking.stream().filter(r -> r.p() >= WORTH_A_LINE).count();
    int bounded = Math.max(LEAST_LINES, Math.min(MOST_LINES, lines));
    return Math.min(ranking.size(), bounded);
  }
}
