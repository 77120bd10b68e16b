package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.Weight;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.Basis;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Source;

/** What speaks for and against a cause, and what would change it. */
final class WhyText {

  /** Facts below this weight hardly matter; they are left out of the short form. */
  private static final double LEAST_DECIBANS = 1;

  private static final int MOST_FACTS = 3;
  private static final int MOST_CHANGES = 5;

  /** A smaller change of a probability is not worth a line. */
  private static final double LEAST_CHANGE = 0.005;

  private final Page page;
  private final Pack pack;

  private WhyText(Page page, Pack pack) {
    this.page = page;
    this.pack = pack;
  }

  /** In a few lines: what weighs most, and what would change it most. */
  static void writeShort(Page page, Pack pack, WhyCause why) {
    new WhyText(page, pack).write(why, false);
  }

  /** Every fact, what the numbers rest on, and what would change it. */
  static void writeFull(Page page, Pack pack, WhyCause why) {
    new WhyText(page, pack).write(why, true);
  }

  /** The facts that weigh most. */
  static void writeFacts(Page page, Pack pack, WhyCause why) {
    WhyText text = new WhyText(page, pack);
    text.writeFacts(text.weightiest(why));
  }

  private void write(WhyCause why, boolean full) {
    page.heading("WHY " + pack.causes().get(why.cause()).title().toUpperCase(Locale.ROOT));
    page.item(
        "By the complaint alone "
            + Figures.percent(why.pAtFirst())
            + ", now "
            + Figures.percent(why.pNow())
            + ".");
    writeFacts(full ? why.facts() : weightiest(why));
    why.touched().stream().limit(full ? why.touched().size() : 1).forEach(this::writeTouched);
    why.wouldChange().stream()
        .filter(c -> Math.abs(c.pThen() - why.pNow()) >= LEAST_CHANGE)
        .limit(full ? MOST_CHANGES : 1)
        .forEach(this::writeChange);
    if (full) {
      writeBasis(why);
    }
  }

  private void writeTouched(WhyCause.Touched touched) {
    page.hanging(
        "  ! ",
        Ink.STRONG,
        "May have come with the work: "
            + FactWords.of(pack, touched.done().fact())
            + " ("
            + Figures.percent(touched.pCaused())
            + " each time)",
        Ink.PLAIN);
  }

  private void writeFacts(List<WhyCause.FactWeight> facts) {
    for (WhyCause.FactWeight f : facts) {
      page.hanging(
          "  " + sign(f.weight()) + " ",
          Ink.STRONG,
          Dangers.sentence(f.weight().words()) + ": " + FactWords.of(pack, f.told().fact()),
          Ink.PLAIN);
    }
    if (facts.isEmpty()) {
      page.item("No fact so far speaks for or against it.");
    }
  }

  private List<WhyCause.FactWeight> weightiest(WhyCause why) {
    List<WhyCause.FactWeight> facts = new ArrayList<>(why.facts());
    facts.removeIf(f -> Math.abs(f.weight().order()) < LEAST_DECIBANS);
    facts.sort(Comparator.comparingDouble(f -> -Math.abs(f.weight().order())));
    List<WhyCause.FactWeight> most =
        new ArrayList<>(facts.subList(0, Math.min(MOST_FACTS, facts.size())));
    most.sort(Comparator.comparing(WhyCause.FactWeight::weight).reversed());
    return most;
  }

  private void writeChange(WhyCause.WouldChange change) {
    page.hanging(
        "  " + page.sign("\u2192", ">") + " ",
        Ink.STRONG,
        "It would be "
            + Figures.percent(change.pThen())
            + " if: "
            + pack.steps().get(change.step()).title()
            + ": "
            + FactWords.of(change.outcome())
            + " ("
            + Figures.percent(change.pOutcome())
            + " likely)",
        Ink.PLAIN);
  }

  private void writeBasis(WhyCause why) {
    Set<String> words = new LinkedHashSet<>();
    why.restsOn().forEach(b -> words.add(basis(b)));
    if (!words.isEmpty()) {
      page.hanging("  ", Ink.PLAIN, "Rests on: " + String.join("; ", words), Ink.PLAIN);
    }
  }

  private String basis(Basis basis) {
    if (basis instanceof Basis.Sourced s) {
      Source source = pack.sources().get(s.source());
      return source.title();
    } else if (basis instanceof Basis.Counted c) {
      return c.seen() + " of " + c.of() + " counted among " + among(c.among());
    } else if (basis instanceof Basis.CommonPractice) {
      return "common practice";
    } else if (basis instanceof Basis.Invented) {
      return "invented numbers";
    }
    return "definition";
  }

  private String among(String among) {
    return pack.complaints().entrySet().stream()
        .filter(e -> e.getKey().equals(complaint(among)))
        .map(e -> e.getValue().title())
        .findFirst()
        .orElse(among);
  }

  private static ComplaintId complaint(String among) {
    return new ComplaintId(among);
  }

  /** Strong signs are doubled, so that they read without colour. */
  private static String sign(Weight weight) {
    double decibans = weight.order();
    if (Math.abs(decibans) < LEAST_DECIBANS) {
      return " .";
    }
    String one = decibans > 0 ? "+" : "-";
    return Math.abs(decibans) < 10 ? " " + one : one + one;
  }
}
