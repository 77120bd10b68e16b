package org.faultwright.cli.paper;

import java.util.ArrayList;
import java.util.List;

/**
 * A box of a drawing with its lines of text, all of one width. What it is about is told by its
 * outline and by words, never by a colour. Lengths are in CSS pixels. Immutable.
 *
 * @param head the lines of the band at its top: how it is come to; may be empty
 * @param body the lines below
 */
record Box(Outline outline, List<Line> head, List<Line> body) {

  /** The width of each box. */
  static final double WIDTH = 212;

  /** Between the sides and the text: wide enough for every outline. */
  static final double SIDE = 12;

  /** The room for text on a line. */
  static final double ROOM = WIDTH - 2 * SIDE;

  /** Above and below the text of a band and of a body. */
  static final double EDGE = 6;

  private static final double LEADING = 1.3;

  /** The outlines, one for each kind of thing. */
  enum Outline {
    /** A test: a plain box. */
    TEST,
    /** A repair: a box with a thick bar on its left. */
    REPAIR,
    /** An end: round at its sides. */
    END,
    /** Not followed any further: dashed. */
    OPEN,
    /** Goes on elsewhere: with a point on its right. */
    ELSEWHERE
  }

  /**
   * A line of text.
   *
   * @param size of its letters
   * @param sign whether the sign of warning stands before it
   */
  record Line(String text, double size, boolean bold, boolean sign) {

    /** How much of the line the sign takes. */
    static final double SIGN = 15;

    /** At most how wide it is, its sign included. */
    double width() {
      return Lettering.width(text, size, bold) + (sign ? SIGN : 0);
    }

    double height() {
      return LEADING * size;
    }
  }

  /** Copies the lists. */
  Box {
    head = List.copyOf(head);
    body = List.copyOf(body);
  }

  /** The height of the band; 0 without one. */
  double headHeight() {
    return head.isEmpty() ? 0 : 2 * EDGE + head.stream().mapToDouble(Line::height).sum();
  }

  double height() {
    return headHeight() + 2 * EDGE + body.stream().mapToDouble(Line::height).sum();
  }

  /** Puts the lines of a box together. */
  static final class Lines {
    private final List<Line> lines = new ArrayList<>();

    /** Text, cut after so many lines. */
    Lines add(String text, double size, boolean bold, int most) {
      Lettering.wrap(text, size, bold, ROOM, most)
          .forEach(line -> lines.add(new Line(line, size, bold, false)));
      return this;
    }

    /** Bold text behind the sign of warning. */
    Lines warn(String text, double size, int most) {
      List<String> texts = Lettering.wrap(text, size, true, ROOM - Line.SIGN, most);
      for (int i = 0; i < texts.size(); i++) {
        lines.add(new Line(texts.get(i), size, true, i == 0));
      }
      return this;
    }

    List<Line> lines() {
      return List.copyOf(lines);
    }
  }
}
