package org.faultwright.cli.text;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What the place that text goes to can show.
 *
 * @param width columns, from {@value #NARROWEST} to {@value #WIDEST}
 * @param unicode whether it shows more than ASCII
 * @param colour whether it shows colour
 */
public record Screen(int width, boolean unicode, boolean colour) {

  /** Below this nothing can be laid out; lines then run over. */
  public static final int NARROWEST = 30;

  /** Longer lines are hard to follow with the eye, however wide the window is. */
  public static final int WIDEST = 100;

  /** Where nobody says how wide it is. */
  public static final int USUAL = 80;

  /** Checks that the width can be laid out. */
  public Screen {
    if (width < NARROWEST || width > WIDEST) {
      throw new IllegalArgumentException(
          "width must be in [" + NARROWEST + ", " + WIDEST + "]: " + width);
    }
  }

  /**
   * Goes by the usual variables: {@code COLUMNS}; {@code LC_ALL}, {@code LC_CTYPE} and {@code LANG}
   * for the character set; {@code NO_COLOR} and {@code TERM=dumb} against colour.
   *
   * @param terminal whether a person looks at it; colour needs that
   */
  public static Screen of(Map<String, String> environment, boolean terminal) {
    boolean plain =
        !environment.getOrDefault("NO_COLOR", "").isEmpty()
            || environment.getOrDefault("TERM", "").equals("dumb");
    return new Screen(width(environment), saysUtf8(environment), terminal && !plain);
  }

  /** Whether the layout for narrow screens is called for. */
  boolean isNarrow() {
    return width < 60;
  }

  private static int width(Map<String, String> environment) {
    String columns = environment.getOrDefault("COLUMNS", "").strip();
    if (!columns.matches("[1-9][0-9]{0,5}")) {
      return USUAL;
    }
    return Math.max(NARROWEST, Math.min(WIDEST, Integer.parseInt(columns)));
  }

  private static boolean saysUtf8(Map<String, String> environment) {
    Optional<String> locale =
        Stream.of("LC_ALL", "LC_CTYPE", "LANG")
            .map(name -> environment.getOrDefault(name, ""))
            .filter(value -> !value.isEmpty())
            .findFirst();
    return locale
        .map(value -> value.toLowerCase(Locale.ROOT))
        .filter(value -> value.contains("utf-8") || value.contains("utf8"))
        .isPresent();
  }
}
