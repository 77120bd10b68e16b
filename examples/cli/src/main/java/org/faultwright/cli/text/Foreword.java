package org.faultwright.cli.text;

import java.util.Optional;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Advice;

/** What the rules put before a plan, which knows only cost: making safe, data, other hands. */
public final class Foreword {

  private Foreword() {}

  /** What is to be seen to before the plan begins; empty where nothing is. */
  public static Optional<Due> of(Pack pack, Answer answer) {
    Advice advice = answer.advice().primary();
    return switch (advice.kind()) {
      case TEST, REPAIR, FUNCTION_TEST -> Optional.empty();
      default -> Optional.of(Due.of(pack, answer, advice));
    };
  }

  static void write(Page page, Pack pack, Answer answer) {
    of(pack, answer)
        .ifPresent(
            due -> {
              page.heading("BEFORE THE PLAN");
              page.item(due.headline());
              if (!due.reasons().isEmpty()) {
                page.labelled("why", Ink.PLAIN, String.join("; ", due.reasons()));
              }
              due.consents()
                  .forEach(c -> page.labelled("ask", Ink.STRONG, Wording.consent(pack, c)));
            });
  }
}
