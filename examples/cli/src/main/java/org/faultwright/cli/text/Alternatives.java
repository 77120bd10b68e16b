package org.faultwright.cli.text;

import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Blocked;
import org.faultwright.rules.Reason;

/** What else could be done, and what cannot be done yet. */
final class Alternatives {

  private static final int MOST_LINES = 3;

  private Alternatives() {}

  static void write(Page page, Pack pack, Answer answer, boolean all) {
    List<Advice> others = answer.advice().others();
    if (others.isEmpty()) {
      return;
    }
    page.heading("OR INSTEAD");
    OptionalDouble best = worth(answer, answer.advice().primary());
    int shown = all ? others.size() : Math.min(MOST_LINES, others.size());
    for (Advice advice : others.subList(0, shown)) {
      page.hanging(
          "  " + page.sign("\u2022", "*") + " ",
          Ink.PLAIN,
          line(pack, advice) + behind(best, worth(answer, advice)),
          Ink.PLAIN);
    }
    if (shown < others.size()) {
      page.hanging("    ", Ink.PLAIN, (others.size() - shown) + " more: see --all", Ink.PLAIN);
    }
  }

  /** Steps that are not open, each with the reason and the way out. */
  static void writeBlocked(Page page, Pack pack, Answer answer) {
    List<Considered> blocked = answer.steps().stream().filter(c -> !c.status().isOpen()).toList();
    if (blocked.isEmpty()) {
      return;
    }
    page.heading("NOT OPEN NOW");
    for (Considered c : blocked) {
      page.hanging(
          "  " + page.sign("\u2022", "*") + " ",
          Ink.PLAIN,
          pack.steps().get(c.step()).title()
              + ": "
              + c.status().blocked().stream()
                  .map(Alternatives::reason)
                  .distinct()
                  .collect(Collectors.joining("; ")),
          Ink.PLAIN);
    }
  }

  private static String reason(Blocked blocked) {
    return blocked.words() + (blocked.wayOut().isEmpty() ? "" : " (" + blocked.wayOut() + ")");
  }

  private static String line(Pack pack, Advice advice) {
    String subject = Wording.subject(pack, advice);
    String words =
        subject.isEmpty()
            ? advice.reasons().stream().map(Reason::words).findFirst().orElse("")
            : subject;
    String time =
        advice
            .step()
            .map(id -> " (" + Figures.time(pack.steps().get(id).effort()) + ")")
            .orElse("");
    return Wording.kind(advice) + ": " + words + time;
  }

  private static String behind(OptionalDouble best, OptionalDouble worth) {
    if (best.isEmpty() || worth.isEmpty() || best.getAsDouble() <= worth.getAsDouble()) {
      return "";
    }
    String more = Figures.money(best.getAsDouble() - worth.getAsDouble());
    return more.equals("0") ? ", hardly behind" : ", behind by about " + more + " of cost";
  }

  private static OptionalDouble worth(Answer answer, Advice advice) {
    if (advice.kind() != Advice.Kind.TEST || advice.step().isEmpty()) {
      return OptionalDouble.empty();
    }
    StepId step = advice.step().get();
    return answer.steps().stream()
        .filter(c -> c.step().equals(step))
        .findFirst()
        .map(Considered::worth)
        .orElse(OptionalDouble.empty());
  }
}
