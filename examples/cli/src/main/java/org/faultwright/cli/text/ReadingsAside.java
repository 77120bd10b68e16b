package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.casefile.Told;
import org.faultwright.diagnosis.Answer;
import org.faultwright.explanation.FactWords;
import org.faultwright.explanation.ReadingWords;
import org.faultwright.measurement.Conformance;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Standing;

/** Readings held to their references, those that ask for a look first. */
final class ReadingsAside {

  private static final int MOST = 4;

  private ReadingsAside() {}

  /** The readings that count, each with how it keeps to its reference. */
  static void write(Page page, Pack pack, Answer answer, boolean all) {
    List<JudgedReading> counting =
        answer.readings().stream()
            .filter(r -> answer.findings().standing(r.fact()).map(Standing::counts).orElse(true))
            .toList();
    if (counting.isEmpty()) {
      return;
    }
    page.heading("READINGS");
    List<JudgedReading> shown = new ArrayList<>(counting);
    if (!all && shown.size() > MOST) {
      shown.removeIf(r -> isClearlyIn(r.conformance()));
      shown.subList(Math.min(MOST, shown.size()), shown.size()).clear();
    }
    for (JudgedReading r : shown) {
      Told told = told(answer, r);
      page.bullet(
          FactWords.of(pack, told.fact())
              + ": "
              + ReadingWords.of(r.conformance())
              + (r.conformance().nearLimit() ? ". " + ReadingWords.again(r) : ""));
    }
    List<JudgedReading> rest = counting.stream().filter(r -> !shown.contains(r)).toList();
    if (!rest.isEmpty()) {
      boolean clear = rest.stream().allMatch(r -> isClearlyIn(r.conformance()));
      page.item(
          "  "
              + rest.size()
              + (shown.isEmpty() ? " readings" : " more")
              + (clear ? ", in tolerance" : "")
              + ": see --all");
    }
  }

  /** How the reading of a fact keeps to its reference; empty where the fact is none. */
  static String words(Answer answer, Told told) {
    return answer
        .reading(told.id())
        .map(r -> " (" + ReadingWords.of(r.conformance()) + ")")
        .orElse("");
  }

  private static boolean isClearlyIn(Conformance c) {
    return c.verdict() == Conformance.Verdict.IN && c.accepted();
  }

  private static Told told(Answer answer, JudgedReading reading) {
    return answer.caseFile().facts().stream()
        .filter(t -> t.id().equals(reading.fact()))
        .findFirst()
        .orElseThrow();
  }
}
