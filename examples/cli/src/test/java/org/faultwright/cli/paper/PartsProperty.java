package org.faultwright.cli.paper;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.faultwright.cli.text.PlanWalk;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Finish;
import org.faultwright.cli.text.PlanWalk.Place;
import org.faultwright.cli.text.PlanWalk.Unfollowed;
import org.faultwright.cli.text.PlanWalk.Way;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.Spend;

/** Plans of any size, cut into parts: all of it is drawn, once, and can be found. */
class PartsProperty {

  @Property(tries = 40)
  void everyActIsDrawnInFullOnce_andEveryResultOnce(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int widest) {
    PlanWalk walk = new Drawer(seed, widest).walk();
    List<Part> parts = Parts.of(walk, 700, caution -> 0);

    List<Integer> shown = new ArrayList<>();
    int leaves = 0;
    int elsewhere = 0;
    int more = 0;
    for (Part part : parts) {
      part.acts().stream()
          .filter(act -> !(part.continued() && act == part.root()))
          .forEach(act -> shown.add(act.number()));
      for (Sketch.Placed placed : part.sketch().boxes()) {
        switch (placed.box().outline()) {
          case END, OPEN -> leaves++;
          case ELSEWHERE -> {
            elsewhere++;
            more += placed.box().head().isEmpty() ? 1 : 0;
          }
          default -> {}
        }
      }
    }
    assertThat(shown)
        .containsExactlyInAnyOrderElementsOf(walk.acts().stream().map(Act::number).toList());
    long ends =
        walk.acts().stream()
            .flatMap(a -> a.ways().stream())
            .filter(w -> !(w.to() instanceof Act))
            .count();
    assertThat(leaves).isEqualTo((int) ends);
    // one box points to each part but the first
    assertThat(elsewhere).isEqualTo(parts.size() - 1);
    assertThat(more).isEqualTo((int) parts.stream().filter(Part::continued).count());
  }

  @Property(tries = 40)
  void partsAreNumberedInOrder_leadToOneAnother_andFitTheSheet(
      @ForAll long seed, @ForAll @IntRange(min = 1, max = 40) int widest) {
    List<Part> parts = Parts.of(new Drawer(seed, widest).walk(), 700, caution -> 0);

    assertThat(parts.get(0).root().number()).isEqualTo(1);
    Set<Integer> found = new HashSet<>(Set.of(1));
    Deque<Integer> waiting = new ArrayDeque<>(List.of(1));
    while (!waiting.isEmpty()) {
      for (int next : parts.get(waiting.poll() - 1).elsewhere()) {
        assertThat(found.add(next)).as("one way to part %d", next).isTrue();
        waiting.add(next);
      }
    }
    assertThat(found).hasSize(parts.size());
    double width = 2 * Sketch.MARGIN + Parts.COLUMNS * (Box.WIDTH + Sketch.GAP) - Sketch.GAP;
    for (int i = 0; i < parts.size(); i++) {
      assertThat(parts.get(i).number()).isEqualTo(i + 1);
      assertThat(parts.get(i).sketch().height()).isLessThanOrEqualTo(700 + 2 * Sketch.MARGIN);
      assertThat(parts.get(i).sketch().width()).isLessThanOrEqualTo(width);
    }
  }

  /** Draws plans: numbers as a walk gives them, down each branch to its end. */
  private static final class Drawer {
    private static final int MOST = 60;

    private final Random random;
    private final int widest;
    private final List<Act> acts = new ArrayList<>();
    private int last;

    Drawer(long seed, int widest) {
      this.random = new Random(seed);
      this.widest = widest;
    }

    PlanWalk walk() {
      Place root = act(1, 0);
      acts.sort(Comparator.comparingInt(Act::number));
      return new PlanWalk(root, acts, List.of());
    }

    private Place act(double p, int depth) {
      int number = ++last;
      int results = 1 + random.nextInt(widest);
      List<Way> ways = new ArrayList<>();
      for (int i = 0; i < results; i++) {
        double q = p / results;
        Place to =
            last < MOST && depth < 7 && random.nextInt(results) < 2
                ? act(q, depth + 1)
                : random.nextBoolean()
                    ? new Finish(Ending.SENT_ON, q, 0)
                    : new Unfollowed(Optional.of("TEST: " + words()), q);
        ways.add(new Way(words(), 1.0 / results, List.of(), to));
      }
      Act act =
          new Act(
              number,
              new StepId("step"),
              random.nextBoolean() ? "TEST" : "REPAIR",
              words(),
              p,
              new Spend(3, 2, 1, 0),
              random.nextBoolean() ? List.of(words()) : List.of(),
              List.of(),
              List.of(),
              List.of(),
              ways);
      acts.add(act);
      return act;
    }

    private String words() {
      return "word ".repeat(1 + random.nextInt(25)).strip();
    }
  }
}
