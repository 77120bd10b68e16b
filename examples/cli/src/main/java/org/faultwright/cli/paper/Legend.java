package org.faultwright.cli.paper;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.cli.paper.Sketch.Branching;

/** What the outlines of a drawing mean, drawn the same way. */
final class Legend {

  private static final double SIZE = 11.5;

  private Legend() {}

  /** A small drawing for each outline. */
  static List<String> svgs() {
    List<Box> boxes =
        List.of(
            box(Box.Outline.TEST, "TEST", "Plain. Look or measure."),
            box(Box.Outline.REPAIR, "REPAIR", "Thick bar. Prove it, then close up."),
            box(Box.Outline.END, "END", "Round. Nothing is left to do."),
            box(Box.Outline.ELSEWHERE, "GOES ON IN A PART", "Pointed. Look for that part."),
            box(Box.Outline.OPEN, "NOT FOLLOWED", "Dashed. Do it, then plan anew."),
            box(Box.Outline.TEST, "CAUTION A B", "Read A and B below the drawing."));
    List<String> drawn = new ArrayList<>();
    for (Box box : boxes) {
      Box.Line name = box.body().get(0);
      String meaning = box.body().get(1).text();
      drawn.add(
          Drawing.of(
              Sketch.of(new Branching(box, List.of())),
              "outline-" + (drawn.size() + 1),
              name.text(),
              meaning));
    }
    return drawn;
  }

  private static Box box(Box.Outline outline, String name, String meaning) {
    Box.Lines body = new Box.Lines();
    if (name.startsWith("CAUTION")) {
      body.warn(name, SIZE, 1);
    } else {
      body.add(name, SIZE, true, 1);
    }
    return new Box(outline, List.of(), body.add(meaning, SIZE, false, 1).lines());
  }
}
