package org.faultwright.cli.paper;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * How wide text is in a drawing, and where its lines break. Nobody knows which letters a reader's
 * machine has: ASCII is as wide as in Helvetica, after which Arial, Liberation Sans and most plain
 * letters are made, with something to spare; anything else counts as wide as it may be.
 */
final class Lettering {

  /** Widths of space to ~ in thousandths of the size (Adobe Core 14 AFM files, Helvetica). */
  private static final int[] PLAIN = {
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584
  };

  /** The same of Helvetica Bold. */
  private static final int[] BOLD = {
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
    611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
    278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584
  };

  /** How much wider than Helvetica letters may be. */
  private static final double SPARE = 1.1;

  private static final String DOTS = "\u2026";

  private Lettering() {}

  /**
   * At most how wide a text is, in the units of the size of its letters.
   *
   * @param size of the letters (em)
   */
  static double width(String text, double size, boolean bold) {
    return SPARE * size * text.codePoints().mapToDouble(c -> em(c, bold)).sum();
  }

  /** How wide a text in ASCII is in Helvetica; empty for any other text. */
  static OptionalDouble exact(String text, double size, boolean bold) {
    boolean known = text.chars().allMatch(c -> ascii(c) >= ' ' && ascii(c) <= '~');
    return known
        ? OptionalDouble.of(size * text.codePoints().mapToDouble(c -> em(c, bold)).sum())
        : OptionalDouble.empty();
  }

  private static int ascii(int c) {
    return c == '\u00a0' ? ' ' : c;
  }

  private static double em(int letter, boolean bold) {
    int c = ascii(letter);
    if (c >= ' ' && c <= '~') {
      return (bold ? BOLD : PLAIN)[c - ' '] / 1000.0;
    }
    int type = Character.getType(c);
    if (type == Character.NON_SPACING_MARK || type == Character.ENCLOSING_MARK) {
      return 0;
    } else if (c < 0x530 || c >= 0x2000 && c < 0x2e80) {
      return 1.05; // Latin, Greek, Cyrillic, and signs
    }
    boolean square = c >= 0x2e80 && c <= 0xd7a3 || c >= 0x1f000 && c <= 0x3fffd;
    return (square ? 1.4 : 2.2) * letters(compatible(c));
  }

  private static String compatible(int c) {
    return Normalizer.normalize(Character.toString(c), Normalizer.Form.NFKC);
  }

  private static int letters(String text) {
    return text.codePointCount(0, text.length());
  }

  /** The text with signs that stand for three letters or more (such as U+FDFD) spelt out. */
  static String spelt(String text) {
    if (text.chars().allMatch(c -> c < 256)) {
      return text;
    }
    StringBuilder spelt = new StringBuilder();
    text.codePoints()
        .mapToObj(c -> letters(compatible(c)) > 2 ? compatible(c) : Character.toString(c))
        .forEach(spelt::append);
    return spelt.toString();
  }

  /**
   * The text in lines. A word that is too long for a line is broken; dots say that lines were left
   * out.
   *
   * @param width of a line, at least six times the size of the letters
   * @param most lines, at least 1
   */
  static List<String> wrap(String text, double size, boolean bold, double width, int most) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : spelt(text).strip().split(" +")) {
      String joined = line.isEmpty() ? word : line + " " + word;
      if (width(joined, size, bold) <= width) {
        line.setLength(0);
        line.append(joined);
        continue;
      }
      if (!line.isEmpty()) {
        lines.add(line.toString());
        line.setLength(0);
      }
      for (String piece : pieces(word, size, bold, width)) {
        if (!line.isEmpty()) {
          lines.add(line.toString());
          line.setLength(0);
        }
        line.append(piece);
      }
      if (lines.size() > most) {
        break;
      }
    }
    lines.add(line.toString());
    return lines.size() <= most ? lines : cut(lines.subList(0, most), size, bold, width);
  }

  private static List<String> pieces(String word, double size, boolean bold, double width) {
    List<String> pieces = new ArrayList<>();
    StringBuilder piece = new StringBuilder();
    for (int c : word.codePoints().toArray()) {
      String letter = Character.toString(c);
      if (!piece.isEmpty() && width(piece + letter, size, bold) > width) {
        pieces.add(piece.toString());
        piece.setLength(0);
      }
      piece.append(letter);
    }
    pieces.add(piece.toString());
    return pieces;
  }

  private static List<String> cut(List<String> kept, double size, boolean bold, double width) {
    List<String> lines = new ArrayList<>(kept);
    String last = lines.remove(lines.size() - 1);
    while (!last.isEmpty() && width(last + DOTS, size, bold) > width) {
      last = last.substring(0, last.offsetByCodePoints(last.length(), -1));
    }
    lines.add(last.stripTrailing() + DOTS);
    return lines;
  }
}
