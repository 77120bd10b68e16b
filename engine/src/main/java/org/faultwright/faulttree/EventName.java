package org.faultwright.faulttree;

import java.util.regex.Pattern;

/**
 * Names an event of a fault tree, case-sensitive. The parts before a dot are the containers that an
 * event is private to, outermost first, as in {@code Supply.Pump.blocked}; a name without a dot is
 * public. Each part is a letter or underscore, then letters, digits, underscores and hyphens, with
 * no two hyphens in a row and none at the end (Open-PSA model exchange format, identifiers).
 */
public record EventName(String value) implements Comparable<EventName> {

  /** Longest name that is accepted. */
  public static final int MAX_LENGTH = 200;

  private static final Pattern PART =
      Pattern.compile("[\\p{L}_][\\p{L}\\p{Nd}_]*(-[\\p{L}\\p{Nd}_]+)*");

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when the text is not spelt as a name
   */
  public EventName {
    if (!isWellSpelt(value)) {
      throw new IllegalArgumentException(
          "name must be letters, digits, underscores and single hyphens, with dots between its"
              + " parts, at most "
              + MAX_LENGTH
              + " characters: "
              + value);
    }
  }

  /** Whether the text is spelt as a name. */
  public static boolean isWellSpelt(String text) {
    if (text.length() > MAX_LENGTH) {
      return false;
    }
    for (String part : text.split("\\.", -1)) {
      if (!isPart(part)) {
        return false;
      }
    }
    return true;
  }

  /** Whether the text is spelt as one part of a name. */
  public static boolean isPart(String text) {
    return text.length() <= MAX_LENGTH && PART.matcher(text).matches();
  }

  @Override
  public int compareTo(EventName other) {
    return value.compareTo(other.value);
  }

  @Override
  public String toString() {
    return value;
  }
}
