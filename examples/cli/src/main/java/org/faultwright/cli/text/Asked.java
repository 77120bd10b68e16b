package org.faultwright.cli.text;

import java.util.List;

/**
 * A question as it stands at the end of a screen.
 *
 * @param words the question
 * @param choices what can be answered, numbered from 1; empty: a value is asked for
 * @param keys further things that can be typed, such as {@code "/ undo"}
 * @param notice what came of the last entry; empty: nothing to say
 */
public record Asked(String words, List<String> choices, List<String> keys, String notice) {

  /** Copies the lists. */
  public Asked {
    choices = List.copyOf(choices);
    keys = List.copyOf(keys);
  }

  /** Choices with their numbers. */
  List<String> numbered() {
    return java.util.stream.IntStream.range(0, choices.size())
        .mapToObj(i -> (i + 1) + " " + choices.get(i))
        .toList();
  }

  void write(Page page) {
    if (!notice.isEmpty()) {
      page.hanging(page.sign("\u2192", ">") + " ", Ink.STRONG, notice, Ink.PLAIN);
    }
    page.hanging("", Ink.PLAIN, words, Ink.STRONG);
    page.beside(numbered());
    page.beside(keys);
  }
}
