package org.faultwright.cli.paper;

import java.util.ArrayList;
import java.util.List;

/**
 * A tree of boxes laid out: the root at the top left, what follows to its right, from top to
 * bottom. Lengths are in CSS pixels. Immutable.
 */
record Sketch(List<Placed> boxes, List<Arrow> arrows, double width, double height) {

  /** Between a column and the next. */
  static final double GAP = 32;

  /** Between a box and the next one below. */
  static final double BELOW = 9;

  /** Kept free all round, for the thickness of lines. */
  static final double MARGIN = 2;

  /** From the top of a box to where its arrows begin and end; the lowest box is higher. */
  static final double ANCHOR = 14;

  /** A box in its place: its left and upper edge. */
  record Placed(Box box, double x, double y) {}

  /** An arrow between two of the boxes, by their places in the list. */
  record Arrow(int from, int to) {}

  /** A box with what follows it. */
  record Branching(Box box, List<Branching> then) {

    /** Copies the list. */
    Branching {
      then = List.copyOf(then);
    }
  }

  /** Copies the lists. */
  Sketch {
    boxes = List.copyOf(boxes);
    arrows = List.copyOf(arrows);
  }

  /** Lays a tree out. */
  static Sketch of(Branching root) {
    List<Placed> boxes = new ArrayList<>();
    List<Arrow> arrows = new ArrayList<>();
    double bottom = place(root, MARGIN, MARGIN, boxes, arrows);
    double right = boxes.stream().mapToDouble(Placed::x).max().orElse(0) + Box.WIDTH;
    return new Sketch(boxes, arrows, right + MARGIN, bottom + MARGIN);
  }

  private static double place(
      Branching node, double x, double y, List<Placed> boxes, List<Arrow> arrows) {
    int here = boxes.size();
    boxes.add(new Placed(node.box(), x, y));
    double bottom = y + node.box().height();
    double top = y;
    for (Branching next : node.then()) {
      arrows.add(new Arrow(here, boxes.size()));
      double end = place(next, x + Box.WIDTH + GAP, top, boxes, arrows);
      bottom = Math.max(bottom, end);
      top = end + BELOW;
    }
    return bottom;
  }

  /** How high a tree is when it is laid out, without the margin. */
  static double height(Branching node) {
    double below = -BELOW;
    for (Branching next : node.then()) {
      below += BELOW + height(next);
    }
    return Math.max(node.box().height(), below);
  }

  /** The corners of an arrow, from the right side of one box to the left side of the other. */
  List<double[]> corners(Arrow arrow) {
    Placed from = boxes.get(arrow.from());
    Placed to = boxes.get(arrow.to());
    double x1 = from.x() + Box.WIDTH;
    double y1 = from.y() + ANCHOR;
    double x2 = to.x();
    double y2 = to.y() + ANCHOR;
    if (y1 == y2) {
      return List.of(new double[] {x1, y1}, new double[] {x2, y2});
    }
    double middle = x1 + GAP / 2;
    return List.of(
        new double[] {x1, y1},
        new double[] {middle, y1},
        new double[] {middle, y2},
        new double[] {x2, y2});
  }
}
