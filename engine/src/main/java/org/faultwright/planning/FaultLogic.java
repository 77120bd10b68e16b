package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.compile.Coordinate;
import org.faultwright.compile.Coordinate.Owner;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Part;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/**
 * The causes, events and bits of a pack in arrays, so that the truth of an event in a world is a
 * walk over small numbers. Immutable.
 *
 * <p>A world is a byte for each cause (present), another for each cause (hidden), and one for each
 * strength and otherwise-bit; 0, 1 or {@link #UNKNOWN}. Nodes are numbered: causes first, in the
 * pack's order, then events.
 */
final class FaultLogic {

  static final byte UNKNOWN = 2;

  /** A strength or otherwise that is exactly 1, or exactly 0: no bit of a world. */
  static final int ALWAYS = -1;

  static final int NEVER = -2;

  final Pack pack;
  final Lineage lineage;
  final List<CauseId> causes;
  final List<EventId> events;
  private final Map<NodeId, Integer> numbers = new LinkedHashMap<>();
  private final Map<Coordinate, Integer> places = new LinkedHashMap<>();
  private final List<Double> pBits = new ArrayList<>();

  /** For each cause the bad new parts that stand in for it as the input of an event. */
  final int[][] standIns;

  final Inputs[] inputs;
  final int[] atLeast;
  final boolean[] negated;
  final int[] otherwise;

  /** For each cause the roots that it follows. */
  final Inputs[] follows;

  /** Causes, those that are followed before those that follow. */
  final int[] rootsFirst;

  /** For each cause the members of its group, itself included; empty: in none. */
  final int[][] group;

  /**
   * Nodes, each with the place of its strength bit.
   *
   * @param nodes node numbers
   * @param bits places in a world, {@link #ALWAYS} or {@link #NEVER}
   */
  record Inputs(int[] nodes, int[] bits) {}

  FaultLogic(Pack pack) {
    this.pack = pack;
    this.lineage = Lineage.of(pack);
    causes = List.copyOf(pack.causes().keySet());
    events = List.copyOf(pack.events().keySet());
    causes.forEach(c -> numbers.put(c, numbers.size()));
    events.forEach(e -> numbers.put(e, numbers.size()));
    causes.forEach(c -> places.put(new Coordinate.Present(c), places.size()));
    causes.forEach(c -> places.put(new Coordinate.Hidden(c), places.size()));
    standIns = new int[causes.size()][];
    follows = new Inputs[causes.size()];
    group = new int[causes.size()][];
    for (int c = 0; c < causes.size(); c++) {
      Cause cause = pack.causes().get(causes.get(c));
      standIns[c] = numbersOf(lineage.carriers(cause.id()).stream().map(Part::bad).toList());
      follows[c] = inputsOf(new Owner.OfFollower(cause.id()), cause.follows());
      group[c] =
          cause.oneOf().map(g -> numbersOf(pack.groups().get(g).members())).orElse(new int[0]);
    }
    rootsFirst = rootsFirst();
    inputs = new Inputs[events.size()];
    atLeast = new int[events.size()];
    negated = new boolean[events.size()];
    otherwise = new int[events.size()];
    for (int e = 0; e < events.size(); e++) {
      Event event = pack.events().get(events.get(e));
      inputs[e] = inputsOf(new Owner.OfEvent(event.id()), event.inputs());
      otherwise[e] = bit(new Coordinate.Otherwise(event.id()), event.otherwise().p());
      atLeast[e] =
          event.combination() instanceof Event.Combination.All
              ? event.inputs().size()
              : event.combination() instanceof Event.Combination.AtLeast k ? k.k() : 1;
      negated[e] = event.combination() instanceof Event.Combination.None;
    }
  }

  int causeCount() {
    return causes.size();
  }

  int nodeCount() {
    return numbers.size();
  }

  /** How many bytes a world has; grows while what is observed is being compiled. */
  int worldSize() {
    return places.size();
  }

  int number(NodeId node) {
    return numbers.get(node);
  }

  int[] numbersOf(Collection<? extends NodeId> nodes) {
    return nodes.stream().mapToInt(numbers::get).toArray();
  }

  /** The place of a coordinate in a world; -1 where it bears on nothing that is planned with. */
  int placeOf(Coordinate coordinate) {
    return places.getOrDefault(coordinate, -1);
  }

  int hiddenPlace(int cause) {
    return causes.size() + cause;
  }

  boolean isBit(int place) {
    return place >= 2 * causes.size();
  }

  /** P(bit is 1) where nothing is known of it. */
  double pBit(int place) {
    return pBits.get(place - 2 * causes.size());
  }

  /** Inputs with strengths; new bits get places. */
  Inputs inputsOf(Owner owner, Map<? extends NodeId, Chance> strengths) {
    int[] nodes = new int[strengths.size()];
    int[] bits = new int[strengths.size()];
    int i = 0;
    for (Map.Entry<? extends NodeId, Chance> s : strengths.entrySet()) {
      nodes[i] = numbers.get(s.getKey());
      bits[i++] = bit(new Coordinate.Strength(owner, s.getKey()), s.getValue().p());
    }
    return new Inputs(nodes, bits);
  }

  private int bit(Coordinate coordinate, double p) {
    if (p == 0 || p == 1) {
      return p == 0 ? NEVER : ALWAYS;
    }
    Integer known = places.get(coordinate);
    if (known == null) {
      known = places.size();
      places.put(coordinate, known);
      pBits.add(p);
    }
    return known;
  }

  private int[] rootsFirst() {
    List<Integer> order = new ArrayList<>();
    for (int c = 0; c < causes.size(); c++) {
      addRootsFirst(c, order);
    }
    return order.stream().mapToInt(Integer::intValue).toArray();
  }

  private void addRootsFirst(int cause, List<Integer> order) {
    if (!order.contains(cause)) {
      for (int root : follows[cause].nodes()) {
        addRootsFirst(root, order);
      }
      order.add(cause);
    }
  }

  /** The nodes that a step's outcomes or readings look at directly. */
  static List<NodeId> looksAt(Step step) {
    List<NodeId> nodes = new ArrayList<>();
    step.shows().map(Lineage::looksAt).ifPresent(nodes::addAll);
    step.pinTable()
        .ifPresent(t -> t.points().stream().map(Lineage::looksAt).forEach(nodes::addAll));
    return nodes;
  }

  /** The inputs of a state that a step shows. */
  Inputs triggersOf(Step step, Observation.TrueState state) {
    return inputsOf(new Owner.OfStepState(step.id(), state.id()), state.triggers());
  }

  /** The inputs of a state of a point. */
  Inputs triggersOf(Point point, Point.ReadingState state) {
    return inputsOf(new Owner.OfPointState(point.id(), state.id()), state.triggers());
  }
}
