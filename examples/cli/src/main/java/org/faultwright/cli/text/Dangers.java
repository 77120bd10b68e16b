package org.faultwright.cli.text;

import java.util.LinkedHashSet;
import java.util.Set;
import org.faultwright.diagnosis.Answer;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Alarm;
import org.faultwright.rules.HoldInForce;

/** What must be read before anything else: alarms, then holds. */
final class Dangers {

  private Dangers() {}

  static void write(Page page, Pack pack, Answer answer) {
    if (answer.findings().alarms().isEmpty() && answer.findings().holds().isEmpty()) {
      return;
    }
    page.gap();
    for (Alarm alarm : answer.findings().alarms()) {
      page.hanging(
          "ALARM  ", Ink.DANGER, "NOW: " + FactWords.of(pack, alarm.ends()) + "!", Ink.DANGER);
    }
    Set<String> said = new LinkedHashSet<>();
    for (HoldInForce hold : answer.findings().holds()) {
      if (said.add(hold.hold().says())) {
        page.hanging("HOLD   ", Ink.DANGER, sentence(hold.hold().says()), Ink.STRONG);
      }
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
