package org.faultwright.planning;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SwitchId;

/**
 * The cheapest ways between states of the bench, by Dijkstra's algorithm over the positions of the
 * switches that matter: those that a step needs, those that must be off in a closed device, and
 * those that turning these needs. Other switches stay as they are.
 *
 * <p>Ways from a state are found once and kept; finding them costs {@code 2^n * n} for n switches.
 * Not thread-safe.
 *
 * @see "E. W. Dijkstra, A note on two problems in connexion with graphs, Numerische Mathematik 1,
 *     1959, 269-271"
 */
public final class BenchWays {

  /** More switches than this are not planned with. */
  public static final int MOST_SWITCHES = 12;

  private final Map<SwitchId, Integer> place = new LinkedHashMap<>();
  private final List<BenchState> turns = new ArrayList<>();
  private final List<Switch.Turn> turnings = new ArrayList<>();
  private final double[] costs;
  private final int[] bits;
  private final int[] needed;
  private final int[] neededOn;
  private final Allowed allowed;
  private final Goal closed;
  private final List<Goal> goals = new ArrayList<>();
  private final Tree[] trees;

  /** Whether a turn may be made in a state of the bench, given as a set of the switches on. */
  interface Allowed {
    boolean turn(int turn, int state);
  }

  /** Positions that some switches must have. */
  private record Goal(int switches, int on) {
    boolean isMetBy(int state) {
      return (state & switches) == on;
    }
  }

  /** All cheapest ways from one state, or from the nearest of several. */
  private static final class Tree {
    final double[] cost;
    final int[] lastTurn;
    int[] nearest = {};

    Tree(int states) {
      cost = new double[states];
      lastTurn = new int[states];
      Arrays.fill(cost, Double.POSITIVE_INFINITY);
      Arrays.fill(lastTurn, -1);
    }
  }

  /**
   * The ways that a pack's switches offer.
   *
   * @param allowed whether a turn, by its place in {@link #turnsOf}, may be made
   * @throws IllegalArgumentException when more than {@value #MOST_SWITCHES} switches matter
   */
  BenchWays(Pack pack, Shop shop, Allowed allowed) {
    this.allowed = allowed;
    switchesThatMatter(pack).forEach(id -> place.put(id, place.size()));
    turns.addAll(turnsOf(pack));
    trees = new Tree[1 << place.size()];
    costs = new double[turns.size()];
    bits = new int[turns.size()];
    needed = new int[turns.size()];
    neededOn = new int[turns.size()];
    for (int t = 0; t < turns.size(); t++) {
      Switch.Turn turning = turning(pack, turns.get(t));
      turnings.add(turning);
      bits[t] = 1 << place.get(turns.get(t).of());
      costs[t] = cost(shop, turning.effort()) + turning.consumables();
      Goal needs = goal(turning.needs());
      needed[t] = needs.switches;
      neededOn[t] = needs.on;
    }
    int mustBeOff = 0;
    for (Map.Entry<SwitchId, Integer> s : place.entrySet()) {
      if (pack.switches().get(s.getKey()).closedWhenOff()) {
        mustBeOff |= 1 << s.getValue();
      }
    }
    closed = new Goal(mustBeOff, 0);
    goals.add(closed);
  }

  /**
   * The ways that a pack's switches offer where every turn is allowed that the pack has.
   *
   * @throws IllegalArgumentException when more than {@value #MOST_SWITCHES} switches matter
   */
  public static BenchWays of(Pack pack, Shop shop) {
    return new BenchWays(pack, shop, (turn, state) -> true);
  }

  /** The switches that matter, in the pack's order. */
  static Set<SwitchId> switchesThatMatter(Pack pack) {
    Set<SwitchId> found = new LinkedHashSet<>();
    Deque<SwitchId> toLookAt = new ArrayDeque<>();
    for (Step step : pack.steps().values()) {
      step.conditions().bench().forEach(b -> toLookAt.add(b.of()));
    }
    pack.switches().values().stream()
        .filter(Switch::closedWhenOff)
        .forEach(s -> toLookAt.add(s.id()));
    while (!toLookAt.isEmpty()) {
      SwitchId next = toLookAt.poll();
      if (found.add(next)) {
        Switch s = pack.switches().get(next);
        s.turnOn().ifPresent(t -> t.needs().forEach(b -> toLookAt.add(b.of())));
        s.turnOff().ifPresent(t -> t.needs().forEach(b -> toLookAt.add(b.of())));
      }
    }
    if (found.size() > MOST_SWITCHES) {
      throw new IllegalArgumentException(
          "switches that steps need must be at most " + MOST_SWITCHES + ": " + found.size());
    }
    Set<SwitchId> inOrder = new LinkedHashSet<>(pack.switches().keySet());
    inOrder.retainAll(found);
    return inOrder;
  }

  /** The turns that a pack's switches that matter have, in order. */
  static List<BenchState> turnsOf(Pack pack) {
    List<BenchState> turns = new ArrayList<>();
    for (SwitchId id : switchesThatMatter(pack)) {
      Switch s = pack.switches().get(id);
      s.turnOn().ifPresent(t -> turns.add(new BenchState(id, true)));
      s.turnOff().ifPresent(t -> turns.add(new BenchState(id, false)));
    }
    return turns;
  }

  private static Switch.Turn turning(Pack pack, BenchState turn) {
    Switch s = pack.switches().get(turn.of());
    return (turn.on() ? s.turnOn() : s.turnOff()).orElseThrow();
  }

  /** What an effort costs. */
  static double cost(Shop shop, Effort effort) {
    return shop.rate() * effort.handsMinutes() + shop.waitRate() * effort.waitMinutes();
  }

  /**
   * The cheapest way to a state in which the needs are met.
   *
   * @param on the switches that are on now; those that do not matter are ignored
   * @param needs positions that some switches must have
   */
  public Route way(Collection<SwitchId> on, Set<BenchState> needs) {
    return way(state(on), goalId(needs));
  }

  /** The cheapest way to close the device, from where the bench is. */
  public Route wayToClose(Collection<SwitchId> on) {
    return way(state(on), CLOSED);
  }

  // What the search uses: states as sets of bits, goals by number.

  /** The number of the goal "closed". */
  static final int CLOSED = 0;

  /** The state with these switches on. */
  int state(Collection<SwitchId> on) {
    int state = 0;
    for (SwitchId id : on) {
      Integer at = place.get(id);
      if (at != null) {
        state |= 1 << at;
      }
    }
    return state;
  }

  /** The switches that matter and are on in a state, added to those on now that do not matter. */
  Set<SwitchId> on(int state, Collection<SwitchId> now) {
    Set<SwitchId> on = new LinkedHashSet<>();
    now.stream().filter(id -> !place.containsKey(id)).forEach(on::add);
    place.forEach(
        (id, at) -> {
          if ((state >> at & 1) == 1) {
            on.add(id);
          }
        });
    return on;
  }

  /** The number of a goal; the same needs have the same number. */
  int goalId(Set<BenchState> needs) {
    Goal goal = goal(needs);
    int known = goals.indexOf(goal);
    if (known < 0) {
      known = goals.size();
      goals.add(goal);
    }
    return known;
  }

  private Goal goal(Set<BenchState> needs) {
    int switches = 0;
    int on = 0;
    for (BenchState b : needs) {
      Integer at = place.get(b.of());
      if (at == null) {
        throw new IllegalArgumentException("switch must be one that steps need: " + b.of());
      }
      int bit = 1 << at;
      switches |= bit;
      on |= b.on() ? bit : 0;
    }
    return new Goal(switches, on);
  }

  /** Cost of the cheapest way to a goal; infinite where there is none. */
  double cost(int from, int goal) {
    if (goals.get(goal).isMetBy(from)) {
      return 0;
    }
    int to = after(from, goal);
    return to < 0 ? Double.POSITIVE_INFINITY : tree(from).cost[to];
  }

  /** The state at the end of the cheapest way to a goal; -1 where there is none. */
  int after(int from, int goal) {
    Goal wanted = goals.get(goal);
    if (wanted.isMetBy(from)) {
      return from;
    }
    Tree tree = tree(from);
    if (goal >= tree.nearest.length) {
      int[] more = Arrays.copyOf(tree.nearest, goals.size());
      Arrays.fill(more, tree.nearest.length, more.length, UNKNOWN);
      tree.nearest = more;
    }
    if (tree.nearest[goal] == UNKNOWN) {
      tree.nearest[goal] = nearest(tree, wanted);
    }
    return tree.nearest[goal];
  }

  private static final int UNKNOWN = -2;

  private static int nearest(Tree tree, Goal wanted) {
    int best = -1;
    for (int s = 0; s < tree.cost.length; s++) {
      if (wanted.isMetBy(s)
          && tree.cost[s] < (best < 0 ? Double.POSITIVE_INFINITY : tree.cost[best])) {
        best = s;
      }
    }
    return best;
  }

  /** The least that any way costs from a state that meets one goal to one that meets another. */
  double leastCost(int from, int to) {
    Tree tree = new Tree(trees.length);
    List<Integer> sources = new ArrayList<>();
    for (int s = 0; s < tree.cost.length; s++) {
      if (goals.get(from).isMetBy(s)) {
        sources.add(s);
      }
    }
    grow(tree, sources);
    int nearest = nearest(tree, goals.get(to));
    return nearest < 0 ? Double.POSITIVE_INFINITY : tree.cost[nearest];
  }

  /** Whether every state that a state leads to has a way to one that meets a goal. */
  boolean leadsSurely(int from, int to) {
    Tree tree = tree(from);
    boolean[] leads = new boolean[trees.length];
    Deque<Integer> open = new ArrayDeque<>();
    for (int s = 0; s < leads.length; s++) {
      if (goals.get(to).isMetBy(s)) {
        leads[s] = true;
        open.add(s);
      }
    }
    while (!open.isEmpty()) {
      int at = open.poll();
      for (int t = 0; t < costs.length; t++) {
        int before = at ^ bits[t];
        boolean isOn = (at & bits[t]) != 0;
        if (isOn == turns.get(t).on() && !leads[before] && mayTurn(t, before)) {
          leads[before] = true;
          open.add(before);
        }
      }
    }
    for (int s = 0; s < leads.length; s++) {
      if (tree.cost[s] < Double.POSITIVE_INFINITY && !leads[s]) {
        return false;
      }
    }
    return true;
  }

  private boolean mayTurn(int turn, int state) {
    return (state & needed[turn]) == neededOn[turn] && allowed.turn(turn, state);
  }

  private Tree tree(int from) {
    Tree known = trees[from];
    if (known == null) {
      known = new Tree(trees.length);
      grow(known, List.of(from));
      trees[from] = known;
    }
    return known;
  }

  private record Reached(double cost, int state) {}

  private void grow(Tree tree, List<Integer> sources) {
    PriorityQueue<Reached> open =
        new PriorityQueue<>(
            (a, b) ->
                a.cost != b.cost
                    ? Double.compare(a.cost, b.cost)
                    : Integer.compare(a.state, b.state));
    for (int s : sources) {
      tree.cost[s] = 0;
      open.add(new Reached(0, s));
    }
    while (!open.isEmpty()) {
      Reached at = open.poll();
      if (at.cost > tree.cost[at.state]) {
        continue;
      }
      for (int t = 0; t < costs.length; t++) {
        boolean isOn = (at.state & bits[t]) != 0;
        if (isOn == turns.get(t).on() || !mayTurn(t, at.state)) {
          continue;
        }
        int next = at.state ^ bits[t];
        double cost = at.cost + costs[t];
        if (cost < tree.cost[next]) {
          tree.cost[next] = cost;
          tree.lastTurn[next] = t;
          open.add(new Reached(cost, next));
        }
      }
    }
  }

  /** The cheapest way to a goal, turn by turn. */
  Route way(int from, int goal) {
    int to = after(from, goal);
    if (to < 0) {
      return new Route.Unreachable();
    }
    List<BenchState> sequence = new ArrayList<>();
    Duration hands = Duration.ZERO;
    Duration waiting = Duration.ZERO;
    double consumables = 0;
    for (int s = to; s != from; ) {
      int t = tree(from).lastTurn[s];
      sequence.add(0, turns.get(t));
      hands = hands.plus(turnings.get(t).effort().hands());
      waiting = waiting.plus(turnings.get(t).effort().waiting());
      consumables += turnings.get(t).consumables();
      s ^= bits[t];
    }
    return new Route.Way(cost(from, goal), hands, waiting, consumables, sequence);
  }
}
