package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.faultwright.cli.text.NextStep.About;
import org.faultwright.cli.text.NextStep.Entry;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Alarm;
import org.faultwright.rules.HoldInForce;

/** The same as a {@link WorkScreen} in plain sentences, for a voice or a braille line. */
public final class SpokenPage {

  private static final int MOST_CAUSES = 3;
  private static final Set<About> UNSAID =
      EnumSet.of(About.EXPECT, About.READ, About.THEN, About.CONSENT);

  private SpokenPage() {}

  /**
   * The sentences, one a line.
   *
   * @param read cautions that have been said in full before: they are only named
   */
  public static List<String> of(
      Screen screen, Pack pack, Answer answer, Due due, Asked asked, Set<CautionId> read) {
    List<String> said = new ArrayList<>();
    if (!asked.notice().isEmpty()) {
      said.add(stopped(Dangers.sentence(asked.notice())));
    }
    addDangers(said, pack, answer);
    said.add(outlook(pack, answer));
    said.add("Next: " + stopped(due.headline()));
    for (Entry e : NextStep.entries(pack, answer, due)) {
      if (e.about() == About.CAUTION && isRead(pack, due, e, read)) {
        said.add("Caution: " + stopped(Wording.name(e.text())));
      } else if (!UNSAID.contains(e.about())) {
        said.add(Dangers.sentence(label(e)) + ": " + stopped(e.text()));
      }
    }
    said.addAll(question(new Asked(asked.words(), asked.choices(), asked.keys(), "")));
    return said.stream().map(line -> fit(screen, line)).toList();
  }

  /** A page that was laid out for the eye: its lines without the signs that only draw. */
  public static List<String> of(Page page) {
    return page.lines().stream()
        .map(line -> line.replaceAll("\u001b\\[[0-9;]*m", ""))
        .map(line -> line.replaceFirst("^ *([+-]{1,2}|[.>*\u2022\u2192]) ", "").strip())
        .filter(line -> !line.isEmpty())
        .toList();
  }

  /** Alarms and holds by themselves. */
  public static List<String> dangers(Pack pack, Answer answer) {
    List<String> said = new ArrayList<>();
    addDangers(said, pack, answer);
    return said;
  }

  /** A question by itself. */
  public static List<String> question(Asked asked) {
    List<String> said = new ArrayList<>();
    if (!asked.notice().isEmpty()) {
      said.add(stopped(Dangers.sentence(asked.notice())));
    }
    said.add(asked.words());
    for (int i = 0; i < asked.choices().size(); i++) {
      said.add("Type " + (i + 1) + " for: " + stopped(asked.choices().get(i)));
    }
    if (!asked.keys().isEmpty()) {
      said.add("Besides: " + stopped(String.join("; ", asked.keys())));
    }
    return said;
  }

  private static void addDangers(List<String> said, Pack pack, Answer answer) {
    for (Alarm alarm : answer.findings().alarms()) {
      said.add("Alarm. Now: " + FactWords.of(pack, alarm.ends()) + "!");
    }
    answer.findings().holds().stream()
        .map(HoldInForce::hold)
        .map(hold -> "Hold. " + stopped(Dangers.sentence(hold.says())))
        .distinct()
        .forEach(said::add);
  }

  /** A line that the screen can show. */
  public static String fit(Screen screen, String line) {
    String harmless = Letters.harmless(line);
    return screen.unicode() ? harmless : Letters.ascii(harmless);
  }

  private static String label(Entry e) {
    return switch (e.about()) {
      case CAUTION -> "caution";
      case LIMIT -> "at most";
      case CONSENT -> "ask the customer";
      default -> e.label();
    };
  }

  private static boolean isRead(Pack pack, Due due, Entry e, Set<CautionId> read) {
    return due.cautions().stream()
        .filter(read::contains)
        .anyMatch(c -> pack.cautions().get(c).text().equals(e.text()));
  }

  private static String outlook(Pack pack, Answer answer) {
    if (answer.outlook() instanceof Posterior posterior) {
      List<String> causes = new ArrayList<>();
      posterior.ranking().stream()
          .limit(MOST_CAUSES)
          .forEach(r -> causes.add(Ranking.title(pack, r) + ", " + Figures.percent(r.p())));
      return "Most likely: " + String.join("; then ", causes) + ".";
    } else if (answer.outlook() instanceof Outlook.ImpossibleEvidence impossible) {
      List<String> facts = new ArrayList<>();
      impossible.clash().forEach(id -> facts.add(Wording.fact(pack, answer, id)));
      return "These facts cannot all be true: " + String.join("; ", facts) + ".";
    }
    return "There are too many possibilities to rank them.";
  }

  private static String stopped(String text) {
    return text.matches("(?s).*[.!?]") ? text : text + ".";
  }
}
