package org.faultwright.cli.dialogue;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** What can be asked for at any question, with the sign on the number pad where it has one. */
enum Verb {
  CANNOT_TELL("0", "can't-tell", "you cannot tell: no evidence, go on with something else"),
  COULD_NOT_DO("-", "can't-do", "it could not be done, and why: can't-do screw stripped"),
  SOMETIMES("~", "sometimes", "it came and went: how to put that"),
  OTHER("+", "other", "other steps, the most worth first; other 2 picks the second"),
  WHY(
      "*",
      "why",
      "why the leader leads and why this step; why battery: that cause; why not ...: the same"),
  UNDO("/", "undo", "take the last answer out, as if never said"),
  READ_OUT(".", "read", "cautions and the how of this step in full"),
  HELP("?", "help", "this page"),
  IF(
      "",
      "if",
      "what if: all outcomes of this step side by side; if 1: only that one; if bend-check"),
  NOTE("", "note", "keep a remark: note screw 3 was missing"),
  FACTS("", "facts", "all that was told, with numbers"),
  OUT("", "out", "take one fact out: out 5"),
  SEEN("", "seen", "something seen or heard: the list of symptoms and of traces"),
  SAID("", "said", "something that the customer says: complaints, history"),
  AGREED("", "agreed", "what the customer agrees to or refuses"),
  BENCH("", "bench", "positions of the bench; tell one that has changed"),
  SHUT("", "shut", "steps that are not open now, and why"),
  JOB("", "job", "goal, ceiling, value, data: change what was settled at intake"),
  PAGE("", "page", "everything on paper: the whole answer"),
  SAVE("", "save", "where the case is kept; save copy.yaml: a copy of it"),
  QUIT("", "quit", "leave; all is kept, diagnose --resume goes on");

  private final String sign;
  private final String word;
  private final String help;

  Verb(String sign, String word, String help) {
    this.sign = sign;
    this.word = word;
    this.help = help;
  }

  /** Its sign on the number pad; empty: it has none. */
  String sign() {
    return sign;
  }

  /** Its word. */
  String word() {
    return word;
  }

  /** What it does. */
  String help() {
    return help;
  }

  static Optional<Verb> bySign(String typed) {
    return Stream.of(values()).filter(v -> !v.sign.isEmpty() && v.sign.equals(typed)).findFirst();
  }

  static Optional<Verb> byWord(String typed) {
    return Stream.of(values()).filter(v -> v.word.equals(typed)).findFirst();
  }

  /** Those whose words begin so. */
  static List<Verb> beginning(String typed) {
    return Stream.of(values()).filter(v -> v.word.startsWith(typed)).toList();
  }

  /** All words. */
  static List<String> words() {
    return Stream.of(values()).map(Verb::word).toList();
  }
}
