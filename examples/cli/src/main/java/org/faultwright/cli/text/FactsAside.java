package org.faultwright.cli.text;

import java.util.List;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Conflict;
import org.faultwright.rules.Standing;

/**
 * Facts that need a second look: impossible ones, those that do not fit, those that do not count.
 */
final class FactsAside {

  private FactsAside() {}

  /** Facts that no device can show together, and what to do about it. */
  static void writeImpossible(Page page, Pack pack, Answer answer, Set<FactId> clash) {
    page.gap();
    page.hanging("", Ink.PLAIN, "THESE FACTS CANNOT ALL BE TRUE", Ink.DANGER);
    answer.findings().conflicts().stream()
        .filter(c -> c.facts().containsAll(clash) || clash.containsAll(c.facts()))
        .map(Conflict::words)
        .distinct()
        .forEach(words -> page.item(Dangers.sentence(Wording.plain(words))));
    for (FactId id : clash) {
      page.bullet(Wording.fact(pack, answer, id));
    }
    page.item(
        "Look at each of them again. Correct or take out the one that is wrong; until then no cause"
            + " can be ranked.");
  }

  /** Facts that do not go together but leave a ranking. */
  static void writeConflicts(Page page, Pack pack, Answer answer) {
    Set<FactId> shown =
        answer.outlook() instanceof Outlook.ImpossibleEvidence i ? i.clash() : Set.of();
    List<Conflict> conflicts =
        answer.advice().conflicts().stream()
            .filter(c -> c.kind() != Conflict.Kind.IMPOSSIBLE && !shown.containsAll(c.facts()))
            .toList();
    if (conflicts.isEmpty()) {
      return;
    }
    page.heading("DO NOT FIT TOGETHER");
    for (Conflict conflict : conflicts) {
      page.item(Dangers.sentence(Wording.plain(conflict.words())));
      for (FactId id : conflict.facts()) {
        page.bullet(Wording.fact(pack, answer, id));
      }
    }
  }

  /** Facts that do not count, or for little, and why. */
  static void writeNotCounted(Page page, Pack pack, Answer answer, boolean all) {
    List<Standing> aside =
        answer.findings().standings().stream()
            .filter(
                s ->
                    !s.counts()
                        || s.marks().contains(Standing.Mark.ON_LIMIT)
                        || all && !s.marks().isEmpty())
            .toList();
    if (aside.isEmpty()) {
      return;
    }
    page.heading("FACTS TO NOTE");
    for (Standing s : aside) {
      page.bullet(
          (s.counts() ? "" : "DOES NOT COUNT: ")
              + Wording.fact(pack, s.told())
              + (s.words().isEmpty() ? "" : ": " + Wording.plain(String.join("; ", s.words()))));
    }
  }
}
