package org.faultwright.cli.text;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.faultwright.cli.text.NextStep.About;
import org.faultwright.cli.text.NextStep.Entry;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.pack.Pack;

/**
 * One screen of work: dangers on top, how likely, what to do next, and the question last. What it
 * has to say is shortened step by step until it fits; dangers and limits never are.
 *
 * @param lines from top to bottom; the place to type comes below
 * @param cautionsInFull whether every caution stands there with all its words
 */
public record WorkScreen(List<String> lines, boolean cautionsInFull) {

  private static final int MOST_CAUSES = 5;

  /** The line to type on, and one that it moves up when it is sent. */
  private static final int BELOW = 2;

  /** Each takes away a little more than the one before. */
  private enum Squeeze {
    NOTHING,
    FEWER_CAUSES,
    CAUTIONS_BY_NAME,
    SHORT_WHY,
    SHORT_HOW,
    NO_GAPS,
    NO_TOOLS,
    NO_HOW,
    TWO_CAUSES,
    NO_WHY,
    ONE_CAUSE;

    boolean is(Squeeze least) {
      return compareTo(least) >= 0;
    }

    int causes() {
      return is(ONE_CAUSE) ? 1 : is(TWO_CAUSES) ? 2 : is(FEWER_CAUSES) ? 3 : MOST_CAUSES;
    }
  }

  /** Copies the lines. */
  public WorkScreen {
    lines = List.copyOf(lines);
  }

  /**
   * Lays out a screen.
   *
   * @param rows how many lines the terminal shows, the one to type on included
   * @param title what stands on top of all
   */
  public static WorkScreen of(
      Screen screen, int rows, String title, Pack pack, Answer answer, Due due, Asked asked) {
    Page page = new Page(screen);
    for (Squeeze squeeze : Squeeze.values()) {
      page = new Page(screen);
      new Layout(page, pack, answer, due, squeeze).write(title, asked);
      if (page.lines().size() <= rows - BELOW) {
        return new WorkScreen(page.lines(), !squeeze.is(Squeeze.CAUTIONS_BY_NAME));
      }
    }
    return new WorkScreen(page.lines(), false);
  }

  /** The cautions, with all that there is to say on how it is done. */
  public static Page cautionsInFull(Screen screen, Pack pack, Answer answer, Due due) {
    Page page = new Page(screen);
    Dangers.write(page, pack, answer);
    page.gap().hanging("READ FIRST  ", Ink.DANGER, due.headline(), Ink.STRONG).gap();
    Set<About> shown = EnumSet.of(About.CAUTION, About.LIMIT, About.TURNS, About.HOW);
    for (Entry e : NextStep.entries(pack, answer, due)) {
      if (shown.contains(e.about())) {
        page.labelled(e.label(), e.ink(), e.text());
      }
    }
    return page;
  }

  private record Layout(Page page, Pack pack, Answer answer, Due due, Squeeze squeeze) {

    void write(String title, Asked asked) {
      page.hanging("", Ink.PLAIN, page.cut(title, ""), Ink.PLAIN);
      boolean last = squeeze == Squeeze.ONE_CAUSE;
      if (!last) {
        writeDangers();
      }
      gap();
      writeOutlook();
      gap();
      Ink ink = due.danger() ? Ink.DANGER : Ink.STRONG;
      page.hanging("NEXT  ", ink, due.headline(), ink);
      writeEntries();
      gap();
      if (last) {
        // may still be too long: then the top is what scrolls away
        writeDangers();
      }
      asked.write(page);
    }

    private void gap() {
      if (!squeeze.is(Squeeze.NO_GAPS)) {
        page.gap();
      }
    }

    private void writeDangers() {
      Page dangers = new Page(page.screen());
      Dangers.write(dangers, pack, answer);
      page.first(Integer.MAX_VALUE, dangers);
    }

    private void writeOutlook() {
      if (answer.outlook() instanceof Posterior posterior) {
        Ranking.writeBrief(page, pack, posterior, squeeze.causes());
      } else if (answer.outlook() instanceof Outlook.ImpossibleEvidence impossible) {
        FactsAside.writeImpossible(page, pack, answer, impossible.clash());
      } else {
        page.text("Too many possibilities to rank them; the advice rests on no ranking.");
      }
    }

    private void writeEntries() {
      List<Entry> entries = NextStep.entries(pack, answer, due);
      boolean cautioned = false;
      for (Entry e : entries) {
        boolean byName = e.about() == About.CAUTION && squeeze.is(Squeeze.CAUTIONS_BY_NAME);
        if (byName && !cautioned) {
          page.labelled("CAUTION", Ink.CAUTION, names(entries));
          cautioned = true;
        } else if (!byName && isShown(e.about())) {
          writeEntry(e);
        }
      }
    }

    private void writeEntry(Entry e) {
      Page whole =
          new Page(page.screen())
              .labelled(
                  e.label(), e.ink(), e.about() == About.JOB ? ToTheEnd.brief(e.text()) : e.text());
      boolean why = e.about() == About.WHY && squeeze.is(Squeeze.SHORT_WHY);
      boolean how = e.about() == About.HOW && squeeze.is(Squeeze.SHORT_HOW);
      int most = why ? 1 : how ? 2 : Integer.MAX_VALUE;
      page.first(most, whole);
    }

    private boolean isShown(About about) {
      return switch (about) {
        // the choices and the question say these
        case EXPECT, READ, THEN, CONSENT -> false;
        case WHY -> !squeeze.is(Squeeze.NO_WHY);
        case HOW -> !squeeze.is(Squeeze.NO_HOW);
        case JOB -> !squeeze.is(Squeeze.NO_GAPS);
        case TOOLS -> !squeeze.is(Squeeze.NO_TOOLS);
        default -> true;
      };
    }

    private static String names(List<Entry> entries) {
      return entries.stream()
              .filter(e -> e.about() == About.CAUTION)
              .map(e -> Wording.name(e.text()))
              .distinct()
              .collect(Collectors.joining("; "))
          + " (. reads them out)";
    }
  }
}
