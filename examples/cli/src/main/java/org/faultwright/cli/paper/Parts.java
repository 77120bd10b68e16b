package org.faultwright.cli.paper;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import org.faultwright.cli.paper.Sketch.Branching;
import org.faultwright.cli.text.PlanWalk;
import org.faultwright.cli.text.PlanWalk.Act;
import org.faultwright.cli.text.PlanWalk.Way;
import org.faultwright.pack.CautionId;

/**
 * Cuts a plan into parts that fit on a sheet each. The likely branches stay together: a part grows
 * from its root by whichever act is most likely to be come to, as long as there is room; what finds
 * none begins a part of its own, and a box says which.
 */
final class Parts {

  /** Boxes side by side. */
  static final int COLUMNS = 3;

  /** What a Letter sheet, the lower of the usual ones, has room for below a heading. */
  static final double HEIGHT = 860;

  private final PlanBoxes boxes;
  private final double height;
  private final ToDoubleFunction<CautionId> below;

  /** Where a part begins, and with which of its results. */
  private record Start(Act act, int from) {
    // acts are told apart by their numbers; comparing all that follows them would take long

    @Override
    public boolean equals(Object other) {
      return other instanceof Start s && s.act.number() == act.number() && s.from == from;
    }

    @Override
    public int hashCode() {
      return 31 * act.number() + from;
    }
  }

  /** A part before parts have numbers: the results from one to another, and the acts shown. */
  private record Cut(Start start, int to, Set<Integer> shown) {}

  private final Map<Start, Integer> numbers = new HashMap<>();

  // boxes already made, since each is tried in many cuts
  private final Map<Act, Box> begun = new IdentityHashMap<>();
  private final Map<Way, Box> drawn = new IdentityHashMap<>();
  private final Map<Way, Box> pointing = new IdentityHashMap<>();

  private Parts(PlanWalk walk, double height, ToDoubleFunction<CautionId> below) {
    this.boxes = new PlanBoxes(walk);
    this.height = height;
    this.below = below;
  }

  /**
   * The parts of a plan; none where there is nothing to do.
   *
   * @param height of a part and its cautions, at most; exceeded where one act is higher by itself
   * @param below how much of it each caution takes below the drawing
   */
  static List<Part> of(PlanWalk walk, double height, ToDoubleFunction<CautionId> below) {
    return walk.root() instanceof Act root ? new Parts(walk, height, below).parts(root) : List.of();
  }

  private List<Part> parts(Act root) {
    List<Cut> cuts = new ArrayList<>();
    Deque<Start> waiting = new ArrayDeque<>(List.of(new Start(root, 0)));
    while (!waiting.isEmpty()) {
      cuts.add(cut(waiting.poll(), waiting));
    }
    cuts.sort(
        Comparator.comparingInt((Cut c) -> c.start().act().number())
            .thenComparingInt(c -> c.start().from()));
    for (Cut cut : cuts) {
      numbers.put(cut.start(), numbers.size() + 1);
    }
    return cuts.stream().map(this::part).toList();
  }

  private Cut cut(Start start, Deque<Start> waiting) {
    Act root = start.act();
    Set<Integer> shown = new HashSet<>(Set.of(root.number()));
    int to = lastThatFits(start);
    if (to < root.ways().size()) {
      waiting.add(new Start(root, to));
    }
    record Candidate(Act act, int column) {}
    PriorityQueue<Candidate> candidates =
        new PriorityQueue<>(
            Comparator.comparingDouble((Candidate c) -> -c.act().p())
                .thenComparingInt(c -> c.act().number()));
    for (Act next : acts(root.ways().subList(start.from(), to))) {
      candidates.add(new Candidate(next, 1));
    }
    while (!candidates.isEmpty()) {
      Candidate c = candidates.poll();
      shown.add(c.act().number());
      if (c.column() + 1 >= COLUMNS || height(new Cut(start, to, shown)) > height) {
        shown.remove(c.act().number());
        waiting.add(new Start(c.act(), 0));
      } else {
        acts(c.act().ways()).forEach(next -> candidates.add(new Candidate(next, c.column() + 1)));
      }
    }
    return new Cut(start, to, shown);
  }

  /** Up to which result there is room where none of them is followed; always for one. */
  private int lastThatFits(Start start) {
    List<Way> ways = start.act().ways();
    Cut bare = new Cut(start, ways.size(), Set.of());
    double more = Sketch.BELOW + boxes.more(1, 1).height();
    double used = below(List.of(start.act())) - Sketch.BELOW;
    for (int to = start.from(); to < ways.size(); to++) {
      Branching next = branch(ways.get(to), bare, new ArrayList<>(), new TreeSet<>());
      used += Sketch.BELOW + next.box().height();
      if (to > start.from() && used + (to + 1 < ways.size() ? more : 0) > height) {
        return to;
      }
    }
    return ways.size();
  }

  private static List<Act> acts(List<Way> ways) {
    return ways.stream().filter(way -> way.to() instanceof Act).map(way -> (Act) way.to()).toList();
  }

  private double height(Cut cut) {
    List<Act> acts = new ArrayList<>();
    double drawing = Sketch.height(root(cut, acts, new TreeSet<>()));
    return drawing + below(acts);
  }

  private double below(List<Act> acts) {
    return acts.stream().flatMap(a -> a.cautions().stream()).distinct().mapToDouble(below).sum();
  }

  private Part part(Cut cut) {
    List<Act> acts = new ArrayList<>();
    Set<Integer> elsewhere = new TreeSet<>();
    Sketch sketch = Sketch.of(root(cut, acts, elsewhere));
    acts.sort(Comparator.comparingInt(Act::number));
    return new Part(
        numbers.get(cut.start()),
        cut.start().act(),
        cut.start().from() > 0,
        acts,
        List.copyOf(elsewhere),
        sketch);
  }

  private Branching root(Cut cut, List<Act> acts, Set<Integer> elsewhere) {
    Act root = cut.start().act();
    acts.add(root);
    List<Branching> then = new ArrayList<>();
    for (Way way : root.ways().subList(cut.start().from(), cut.to())) {
      then.add(branch(way, cut, acts, elsewhere));
    }
    int left = root.ways().size() - cut.to();
    if (left > 0) {
      int part = number(new Start(root, cut.to()), elsewhere);
      then.add(new Branching(boxes.more(left, part), List.of()));
    }
    return new Branching(begun.computeIfAbsent(root, a -> boxes.act(a, Optional.empty())), then);
  }

  private Branching branch(Way way, Cut cut, List<Act> acts, Set<Integer> elsewhere) {
    if (!(way.to() instanceof Act act)) {
      return new Branching(drawn.computeIfAbsent(way, boxes::leaf), List.of());
    }
    if (!cut.shown().contains(act.number())) {
      int part = number(new Start(act, 0), elsewhere);
      return new Branching(
          numbers.isEmpty()
              ? pointing.computeIfAbsent(way, w -> boxes.elsewhere(act, w, part))
              : boxes.elsewhere(act, way, part),
          List.of());
    }
    acts.add(act);
    List<Branching> then =
        act.ways().stream().map(next -> branch(next, cut, acts, elsewhere)).toList();
    return new Branching(drawn.computeIfAbsent(way, w -> boxes.act(act, Optional.of(w))), then);
  }

  /** The number of a part, once parts have numbers: as wide as any before. */
  private int number(Start start, Set<Integer> elsewhere) {
    int number = numbers.getOrDefault(start, 9999);
    elsewhere.add(number);
    return number;
  }
}
