package org.faultwright.cli.text;

import java.text.Normalizer;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * Text made fit for a screen: what packs and cases say is untrusted, and not every terminal shows
 * every letter.
 */
public final class Letters {

  private static final Pattern NUMBER_AND_UNIT =
      Pattern.compile(
          "(\\d|fact) +"
              + "(%|[pnu\u00b5mkMG]?(?:V|A|\u03a9|ohm|F|Hz|W|s)|min|h|d|\u00b0C|deg|\\d+)"
              + "(?=[\\s,;:.)]|$)");

  private static final Map<Integer, String> PLAIN =
      Map.ofEntries(
          Map.entry((int) '\u03a9', "ohm"),
          Map.entry((int) '\u2126', "ohm"),
          Map.entry((int) '\u00b5', "u"),
          Map.entry((int) '\u03bc', "u"),
          Map.entry((int) '\u00b0', "deg "),
          Map.entry((int) '\u00b1', "+-"),
          Map.entry((int) '\u00d7', "x"),
          Map.entry((int) '\u2013', "-"),
          Map.entry((int) '\u2014', "-"),
          Map.entry((int) '\u2026', "..."),
          Map.entry((int) '\u2018', "'"),
          Map.entry((int) '\u2019', "'"),
          Map.entry((int) '\u201c', "\""),
          Map.entry((int) '\u201d', "\""),
          Map.entry((int) '\u2192', "->"),
          Map.entry((int) '\u2264', "<="),
          Map.entry((int) '\u2265', ">="),
          Map.entry((int) '\u00df', "ss"));

  private Letters() {}

  /**
   * The text with everything taken out that could steer a terminal (control characters, changes of
   * writing direction); line ends and tabs become spaces.
   */
  public static String harmless(String text) {
    StringBuilder clean = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            c -> {
              int type = Character.getType(c);
              if (Character.isWhitespace(c) || c == '\u00a0') {
                clean.append(' ');
              } else if (type != Character.CONTROL
                  && type != Character.FORMAT
                  && type != Character.SURROGATE
                  && type != Character.UNASSIGNED
                  && type != Character.PRIVATE_USE) {
                clean.appendCodePoint(c);
              }
            });
    return clean.toString();
  }

  /** The text with numbers and their units held together by this sign instead of spaces. */
  public static String bind(String text, char joint) {
    return NUMBER_AND_UNIT.matcher(text).replaceAll("$1" + joint + "$2");
  }

  /** The text in ASCII: signs of the trade spelt out, marks above letters dropped. */
  public static String ascii(String text) {
    StringBuilder plain = new StringBuilder(text.length());
    Normalizer.normalize(text, Normalizer.Form.NFC)
        .codePoints()
        .forEach(c -> plain.append(asciiOf(c)));
    return plain.toString();
  }

  /** The text in ASCII, sign for sign, so that what stands below another still does. */
  public static String asciiInPlace(String text) {
    StringBuilder plain = new StringBuilder(text.length());
    Normalizer.normalize(text, Normalizer.Form.NFC)
        .codePoints()
        .forEach(
            c -> {
              String letter = asciiOf(c);
              plain.append(letter.length() == 1 ? letter : "?");
            });
    return plain.toString();
  }

  private static String asciiOf(int c) {
    if (c < 128) {
      return Character.toString(c);
    }
    String spelt = PLAIN.get(c);
    if (spelt != null) {
      return spelt;
    }
    String letter =
        Normalizer.normalize(Character.toString(c), Normalizer.Form.NFD)
            .codePoints()
            .filter(x -> x < 128)
            .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
            .toString();
    return letter.isEmpty() ? "?" : letter;
  }

  /** How many columns the text takes on a terminal. */
  static int columns(String text) {
    return text.codePoints().map(Letters::columns).sum();
  }

  private static int columns(int c) {
    int type = Character.getType(c);
    if (type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK) {
      return 0;
    }
    // East Asian wide letters and most pictographs (Unicode Standard Annex 11, coarsely)
    boolean wide =
        c >= 0x1100 && c <= 0x115f
            || c >= 0x2e80 && c <= 0xa4cf
            || c >= 0xac00 && c <= 0xd7a3
            || c >= 0xf900 && c <= 0xfaff
            || c >= 0xfe30 && c <= 0xfe6f
            || c >= 0xff00 && c <= 0xff60
            || c >= 0x1f300 && c <= 0x1faff
            || c >= 0x20000 && c <= 0x3fffd;
    return wide ? 2 : 1;
  }
}
