package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanComparison.Row;
import org.faultwright.planning.PlanComparison.Way;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Simulated;

/** A plan beside rules of thumb, as a small table and a sentence. */
public final class ComparisonText {

  private static final int TABLE = 80;
  private static final int[] WIDTHS = {34, 7, 11, 7, 9, 9};

  /** What stands in each column. */
  public static final List<String> TITLES =
      List.of("", "COST", "HANDS ON", "MONEY", "REPAIRED", "BACK");

  /** Costs that differ by a smaller part are told as the same. */
  private static final double SAME = 0.005;

  /** What happens in fewer cases is not worth a line. */
  private static final double RARE = 0.0005;

  private final Page page;

  /** Writes on the page. */
  public ComparisonText(Page page) {
    this.page = page;
  }

  /** Writes the comparison. */
  public void write(PlanComparison compared) {
    page.heading("BESIDE RULES OF THUMB");
    if (page.screen().width() >= TABLE) {
      page.hanging(line(TITLES), Ink.STRONG, "", Ink.PLAIN);
      compared.rows().forEach(r -> page.hanging(line(cells(r)), Ink.PLAIN, "", Ink.PLAIN));
    } else {
      compared.rows().forEach(this::writeNarrow);
    }
    page.gap();
    remarks(compared).forEach(page::item);
  }

  /** What is to be said below the table. */
  public static List<String> remarks(PlanComparison compared) {
    List<String> remarks = new ArrayList<>(List.of(sentence(compared)));
    for (Row row : compared.rows()) {
      row.simulated().ifPresent(s -> remarks.add(simulated(row, s)));
    }
    for (Row row : compared.rows()) {
      if (row.pBeyond() > RARE) {
        remarks.add(beyond(row));
      }
    }
    return remarks;
  }

  private void writeNarrow(Row row) {
    List<String> cells = cells(row);
    page.bullet(
        cells.get(0)
            + ": costs "
            + cells.get(1)
            + "; "
            + cells.get(2)
            + " hands on, "
            + cells.get(3)
            + " money; repaired "
            + cells.get(4)
            + ", comes back "
            + cells.get(5));
  }

  /** A row of the table, below its titles. */
  public static List<String> cells(Row row) {
    return List.of(
        name(row.way()),
        Figures.money(row.expectedCost()),
        PlanWords.minutes(row.expectedHands()),
        Figures.money(row.course().expected().money()),
        Figures.percent(repaired(row)),
        Figures.percent(Math.min(1, row.course().pComeback())));
  }

  private static double repaired(Row row) {
    return Math.min(1, row.course().endings().get(Ending.REPAIRED));
  }

  private String line(List<String> cells) {
    StringBuilder line = new StringBuilder("  ");
    for (int i = 0; i < WIDTHS.length; i++) {
      String space = " ".repeat(Math.max(0, WIDTHS[i] - Letters.columns(cells.get(i))));
      line.append(i == 0 ? cells.get(i) + space : space + cells.get(i));
    }
    return line.toString().stripTrailing();
  }

  /** What a way is called. */
  public static String name(Way way) {
    return switch (way) {
      case PLAN -> "this plan";
      case MOST_INFORMATION -> "test that tells most per cost";
      case PROBABILITY_PER_COST -> "repair likeliest to help per cost";
      case LIKELIEST_FIRST -> "repair of the likeliest cause";
    };
  }

  /** What swapping the likeliest part first comes to beside the plan, in a sentence. */
  public static String sentence(PlanComparison compared) {
    OptionalDouble times = compared.timesAsMuch(Way.LIKELIEST_FIRST);
    String subject = "Repairing the likeliest cause first, without a test, ";
    if (times.isEmpty() || Math.abs(times.getAsDouble() - 1) < SAME) {
      return subject + "costs the same.";
    }
    long minutes = Math.round(compared.minutesMore(Way.LIKELIEST_FIRST));
    String time =
        minutes == 0
            ? "takes as long"
            : "takes " + PlanWords.minutes(Math.abs(minutes)) + (minutes > 0 ? " more" : " less");
    double here = repaired(compared.row(Way.LIKELIEST_FIRST));
    double there = repaired(compared.plan());
    String ends =
        Figures.percent(here).equals(Figures.percent(there))
            ? ""
            : ", and repairs "
                + Figures.percent(here)
                + " of devices where the plan repairs "
                + Figures.percent(there);
    return subject
        + "costs "
        + Figures.times(times.getAsDouble())
        + " as much"
        + (ends.isEmpty() ? " and " : ", ")
        + time
        + ends
        + ".";
  }

  private static String simulated(Row row, Simulated s) {
    return "Drawn at random, "
        + String.format(java.util.Locale.ROOT, "%,d", s.devices()).replace(',', ' ')
        + " devices, "
        + name(row.way())
        + ": "
        + Figures.decimal(s.cost())
        + " +- "
        + Figures.decimal(s.costError())
        + " on average where "
        + Figures.decimal(row.expectedCost())
        + " is expected.";
  }

  private static String beyond(Row row) {
    return "Not followed to the last, "
        + name(row.way())
        + ": in "
        + Figures.percent(row.pBeyond())
        + " of cases repairs go on by what is likeliest to help per cost; that can be off by "
        + Figures.money(row.less())
        + " downwards and, at the very most, "
        + Figures.money(row.more())
        + " upwards.";
  }
}
