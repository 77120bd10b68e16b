package org.faultwright.cli.dialogue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Marks on a numbered list, as in {@code 2 -4 ~5}: yes to the second, no to the fourth, sometimes
 * or cannot test for the fifth.
 */
record Marks(List<Mark> all) {

  private static final Pattern MARK = Pattern.compile("([-~]?)([0-9]{1,3})");

  /** What stands before a number. */
  enum Sign {
    PLAIN,
    MINUS,
    TILDE
  }

  /**
   * One mark.
   *
   * @param index from 0
   */
  record Mark(int index, Sign sign) {}

  /** Copies the list. */
  Marks {
    all = List.copyOf(all);
  }

  /**
   * Reads them.
   *
   * @param howMany items are on the list
   * @throws IllegalArgumentException when it is no such line; the message is for who typed it
   */
  static Marks parse(String typed, int howMany) {
    List<Mark> marks = new ArrayList<>();
    for (String word : typed.strip().split("[\\s,;]+")) {
      Matcher m = MARK.matcher(word);
      if (!m.matches()) {
        throw new IllegalArgumentException(
            "'" + word + "' is no number of the list; type numbers with spaces, such as 1 3");
      }
      int number = Integer.parseInt(m.group(2));
      if (number < 1 || number > howMany) {
        throw new IllegalArgumentException(
            "there is no " + number + " on the list; type 1 to " + howMany);
      }
      Sign sign =
          switch (m.group(1)) {
            case "-" -> Sign.MINUS;
            case "~" -> Sign.TILDE;
            default -> Sign.PLAIN;
          };
      Optional<Mark> before = marks.stream().filter(k -> k.index() == number - 1).findFirst();
      if (before.isPresent() && before.get().sign() != sign) {
        throw new IllegalArgumentException(number + " stands there in two ways; type it once");
      } else if (before.isEmpty()) {
        marks.add(new Mark(number - 1, sign));
      }
    }
    return new Marks(marks);
  }
}
