package org.faultwright.cli.text;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Advice;
import org.faultwright.rules.Blocked;

/** What else could be done, and what cannot be done yet. */
final class Alternatives {

  private static final int MOST_LINES = 3;

  /** As wide as the lead of a bullet. */
  private static final String BULLET = "    ";

  private Alternatives() {}

  static void write(Page page, Pack pack, Answer answer, boolean all) {
    List<Advice> others = answer.advice().others();
    if (others.isEmpty()) {
      return;
    }
    page.heading("OR INSTEAD");
    int shown = all ? others.size() : Math.min(MOST_LINES, others.size());
    for (Advice advice : others.subList(0, shown)) {
      String after = after(page, pack, answer, advice);
      String line = line(pack, advice);
      page.bullet((all ? line : page.cut(line, BULLET + after)) + after);
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
      page.bullet(
          pack.steps().get(c.step()).title()
              + ": "
              + c.status().blocked().stream()
                  .map(Alternatives::reason)
                  .distinct()
                  .collect(Collectors.joining("; ")));
    }
  }

  private static String reason(Blocked blocked) {
    return Wording.plain(blocked.words())
        + (blocked.wayOut().isEmpty() ? "" : " (" + blocked.wayOut() + ")");
  }

  private static String line(Pack pack, Advice advice) {
    if (!Wording.subject(pack, advice).isEmpty()) {
      return Wording.headline(pack, advice);
    }
    return Wording.kind(advice)
        + advice.reasons().stream()
            .map(r -> ": " + Wording.plain(r.words()))
            .findFirst()
            .orElse("");
  }

  /** How long it takes by itself, and how far it is behind what is done next. */
  private static String after(Page page, Pack pack, Answer answer, Advice advice) {
    List<String> parts = new ArrayList<>();
    advice
        .step()
        .map(id -> pack.steps().get(id).effort())
        .map(effort -> effort.hands().plus(effort.waiting()))
        .filter(whole -> !whole.isZero())
        .ifPresent(whole -> parts.add(Figures.time(whole)));
    parts.addAll(ToTheEnd.behind(answer, advice, !page.screen().isNarrow()));
    return parts.isEmpty() ? "" : " (" + String.join(", ", parts) + ")";
  }
}
