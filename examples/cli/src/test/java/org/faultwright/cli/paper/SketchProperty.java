package org.faultwright.cli.paper;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.cli.paper.Sketch.Arrow;
import org.faultwright.cli.paper.Sketch.Branching;
import org.faultwright.cli.paper.Sketch.Placed;

/** Drawings of drawn trees: nothing lies on anything else. */
class SketchProperty extends Labels {

  private static final double SMALL = 1e-6;

  @Property(tries = 300)
  void noTwoBoxesOverlap(@ForAll @From("trees") Branching tree) {
    List<Placed> boxes = Sketch.of(tree).boxes();
    for (int i = 0; i < boxes.size(); i++) {
      for (int j = 0; j < i; j++) {
        Placed a = boxes.get(i);
        Placed b = boxes.get(j);
        boolean apart =
            a.x() >= b.x() + Box.WIDTH + Sketch.GAP - SMALL
                || b.x() >= a.x() + Box.WIDTH + Sketch.GAP - SMALL
                || a.y() >= b.y() + b.box().height() + Sketch.BELOW - SMALL
                || b.y() >= a.y() + a.box().height() + Sketch.BELOW - SMALL;
        assertThat(apart).as("%s and %s", a, b).isTrue();
      }
    }
  }

  @Property(tries = 300)
  void everyArrowBeginsAndEndsAtABox_andCrossesNone(@ForAll @From("trees") Branching tree) {
    Sketch sketch = Sketch.of(tree);
    // a tree: one arrow to each box but the first
    assertThat(sketch.arrows()).hasSize(sketch.boxes().size() - 1);
    assertThat(sketch.arrows()).extracting(Arrow::to).doesNotHaveDuplicates().doesNotContain(0);
    for (Arrow arrow : sketch.arrows()) {
      List<double[]> corners = sketch.corners(arrow);
      Placed from = sketch.boxes().get(arrow.from());
      Placed to = sketch.boxes().get(arrow.to());
      double[] start = corners.get(0);
      double[] end = corners.get(corners.size() - 1);
      assertThat(start[0]).isEqualTo(from.x() + Box.WIDTH);
      assertThat(start[1]).isBetween(from.y(), from.y() + from.box().height());
      assertThat(end[0]).isEqualTo(to.x());
      assertThat(end[1]).isBetween(to.y(), to.y() + to.box().height());
      for (int c = 1; c < corners.size(); c++) {
        assertCrossesNone(sketch, corners.get(c - 1), corners.get(c));
      }
    }
  }

  private static void assertCrossesNone(Sketch sketch, double[] a, double[] b) {
    assertThat(a[0] == b[0] || a[1] == b[1]).as("lines go across or down").isTrue();
    for (Placed box : sketch.boxes()) {
      boolean inside =
          Math.max(a[0], b[0]) > box.x() + SMALL
              && Math.min(a[0], b[0]) < box.x() + Box.WIDTH - SMALL
              && Math.max(a[1], b[1]) > box.y() + SMALL
              && Math.min(a[1], b[1]) < box.y() + box.box().height() - SMALL;
      assertThat(inside).as("a line through %s", box).isFalse();
    }
  }

  @Property(tries = 300)
  void allTextLiesWithinItsBox_andAllBoxesWithinTheDrawing(@ForAll @From("trees") Branching tree) {
    Sketch sketch = Sketch.of(tree);
    for (Placed placed : sketch.boxes()) {
      Box box = placed.box();
      assertThat(placed.x()).isGreaterThan(0);
      assertThat(placed.y()).isGreaterThan(0);
      assertThat(placed.x() + Box.WIDTH).isLessThan(sketch.width());
      assertThat(placed.y() + box.height()).isLessThan(sketch.height());
      double text = 0;
      for (Box.Line line : box.head()) {
        assertThat(Box.SIDE + line.width()).isLessThanOrEqualTo(Box.WIDTH - Box.SIDE + SMALL);
        text += line.height();
      }
      assertThat(text).isLessThanOrEqualTo(box.headHeight());
      for (Box.Line line : box.body()) {
        assertThat(Box.SIDE + line.width()).isLessThanOrEqualTo(Box.WIDTH - Box.SIDE + SMALL);
        text += line.height();
      }
      assertThat(text).isLessThan(box.height());
    }
  }

  @Property(tries = 100)
  void heightIsThatOfTheDrawing(@ForAll @From("trees") Branching tree) {
    assertThat(Sketch.height(tree) + 2 * Sketch.MARGIN)
        .isBetween(Sketch.of(tree).height() - SMALL, Sketch.of(tree).height() + SMALL);
  }

  @Provide
  Arbitrary<Branching> trees() {
    return tree(4);
  }

  private Arbitrary<Branching> tree(int deep) {
    Arbitrary<List<Branching>> then =
        deep == 0
            ? Arbitraries.just(List.of())
            : Arbitraries.lazy(() -> tree(deep - 1)).list().ofMaxSize(3);
    return Combinators.combine(boxes(), then).as(Branching::new);
  }

  private Arbitrary<Box> boxes() {
    Arbitrary<Box.Outline> outlines = Arbitraries.of(Box.Outline.class);
    return Combinators.combine(outlines, labels(), labels(), Arbitraries.integers().between(0, 3))
        .as(
            (outline, head, body, most) -> {
              Box.Lines band = new Box.Lines();
              if (most > 0) {
                band.add(Plain.of(head), 11.5, true, most).warn(Plain.of(head), 11.5, most);
              }
              Box.Lines lines = new Box.Lines().add(Plain.of(body), 12.5, false, 4);
              return new Box(outline, band.lines(), lines.lines());
            });
  }
}
