package org.faultwright.cli.text;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.diagnosis.Answer;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Alarm;
import org.faultwright.rules.HoldInForce;

/** What must be read before anything else: alarms, then holds. */
public final class Dangers {

  private static final String ALARM = "ALARM";

  private Dangers() {}

  /** A danger: {@code ALARM} or {@code HOLD}, and what about it. */
  public record Danger(String label, String text) {}

  /** All of them, alarms first. */
  public static List<Danger> of(Pack pack, Answer answer) {
    Set<Danger> all = new LinkedHashSet<>();
    for (Alarm alarm : answer.findings().alarms()) {
      all.add(new Danger(ALARM, "NOW: " + FactWords.of(pack, alarm.ends()) + "!"));
    }
    for (HoldInForce hold : answer.findings().holds()) {
      all.add(new Danger("HOLD", sentence(hold.hold().says())));
    }
    return List.copyOf(all);
  }

  static void write(Page page, Pack pack, Answer answer) {
    List<Danger> all = of(pack, answer);
    if (all.isEmpty()) {
      return;
    }
    page.gap();
    for (Danger d : all) {
      page.hanging(
          (d.label() + "   ").substring(0, 7),
          Ink.DANGER,
          d.text(),
          d.label().equals(ALARM) ? Ink.DANGER : Ink.STRONG);
    }
  }

  /** Whether the words say no more than what stands under the dangers already. */
  static boolean says(Answer answer, String words) {
    return answer.findings().alarms().stream().map(Alarm::words).anyMatch(words::equals)
        || answer.findings().holds().stream().map(h -> h.hold().says()).anyMatch(words::equals);
  }

  /** Words that begin like a sentence. */
  static String sentence(String words) {
    String text = words.strip();
    if (text.isEmpty()) {
      return text;
    }
    int first = text.codePointAt(0);
    return Character.toString(Character.toTitleCase(first))
        + text.substring(Character.charCount(first));
  }
}
