package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.cli.dialogue.Settling.Result;
import org.faultwright.cli.text.Asked;
import org.faultwright.explanation.FactWords;
import org.faultwright.pack.Pack;

/** Goes through things to settle, one at a time, with a way back. */
final class TakingIn {

  /** What is done with the case after each answer: it is kept. */
  interface Keep {
    /** Returns once it is on disk; false: whoever sat there has gone. */
    boolean on(CaseFile caseFile);
  }

  /** What is dangerous about the device as far as it is known. */
  interface Dangers {
    /** Lines that stand above all else. */
    List<String> of(CaseFile caseFile);
  }

  private static final String BACK = "/";
  private static final String BACK_WORD = "back";
  private static final String QUIT = "quit";

  private final Talk talk;
  private final Pack pack;
  private final Keep keep;
  private final Dangers dangers;

  TakingIn(Talk talk, Pack pack, Keep keep, Dangers dangers) {
    this.talk = talk;
    this.pack = pack;
    this.keep = keep;
    this.dangers = dangers;
  }

  /**
   * What came of it.
   *
   * @param known the case with all that was settled, which is what is kept
   * @param through whether every question was gone through
   */
  record Outcome(CaseFile known, boolean through) {}

  /** Asks all questions, or until whoever sits there leaves. */
  Outcome run(CaseFile start, List<Settling> all, String title) {
    List<CaseFile> before = new ArrayList<>();
    CaseFile known = start;
    List<String> above = dangers.of(known);
    String notice = "";
    int at = 0;
    while (at < all.size()) {
      Settling settling = all.get(at);
      String where = title + ", question " + (at + 1) + " of " + all.size();
      Asked asked = settling.asked(known, notice);
      Optional<String> line = talk.askList(where, above, withWayBack(asked, at));
      if (line.isEmpty() || line.get().strip().equalsIgnoreCase(QUIT)) {
        return new Outcome(known, false);
      }
      String typed = line.get().strip();
      notice = "";
      if (typed.equals(BACK) || typed.equalsIgnoreCase(BACK_WORD)) {
        if (at == 0) {
          notice = "This is the first question.";
          continue;
        }
        at--;
        known = before.remove(at);
      } else if (typed.isEmpty()) {
        before.add(known);
        at++;
        continue;
      } else {
        Result result = settling.hear(known, typed);
        if (result instanceof Result.Unclear unclear) {
          notice = unclear.words();
          continue;
        }
        Result.Settled settled = (Result.Settled) result;
        before.add(known);
        known = known.withIntake(settled.intake());
        for (Fact fact : settled.facts()) {
          known = known.with(fact);
        }
        notice = kept(settled);
        at++;
      }
      if (!keep.on(known)) {
        return new Outcome(known, false);
      }
      above = dangers.of(known);
    }
    return new Outcome(known, true);
  }

  private String kept(Result.Settled settled) {
    return settled.facts().isEmpty()
        ? "Kept."
        : "Kept: "
            + String.join("; ", settled.facts().stream().map(f -> FactWords.of(pack, f)).toList());
  }

  private static Asked withWayBack(Asked asked, int at) {
    List<String> keys = new ArrayList<>(asked.keys());
    if (at > 0) {
      keys.add("/ back");
    }
    keys.add("quit");
    return new Asked(asked.words(), asked.choices(), keys, asked.notice());
  }
}
