package org.faultwright.casefile;

import java.util.List;

/** The kinds of advice, as cases write them. */
public final class AdviceWords {

  /** All of them. */
  public static final List<String> ALL =
      List.of(
          "make-safe",
          "function-test",
          "close-up",
          "read-again",
          "test",
          "ask",
          "repair",
          "send-on",
          "return",
          "stop");

  private AdviceWords() {}
}
