package org.faultwright.rules.facts;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Switch;

/**
 * How bench positions are brought about. Immutable.
 *
 * <p>A way that is found works: each turn's needs hold when its time comes. It is found by going
 * back from the wanted positions, each of which only one turn brings about, so that the cost is
 * that of the turns involved; it need not be the cheapest, which is planning's business. Where
 * turns undo each other in ways that a few rounds do not settle, or a switch turns one way only, a
 * way may exist that is not found.
 */
public final class Ways {

  /** Rounds in which positions that were undone on the way are brought about again. */
  private static final int MOST_ROUNDS = 4;

  private final Map<BenchState, Switch.Turn> turns = new LinkedHashMap<>();
  private final Set<BenchState> open = new LinkedHashSet<>();

  /** The ways of a pack's bench. */
  public Ways(Pack pack) {
    for (Switch each : pack.switches().values()) {
      each.turnOn().ifPresent(t -> turns.put(new BenchState(each.id(), true), t));
      each.turnOff().ifPresent(t -> turns.put(new BenchState(each.id(), false), t));
      if (each.closedWhenOff()) {
        open.add(new BenchState(each.id(), true));
      }
    }
  }

  /**
   * A way.
   *
   * @param turns the positions to turn to, in order
   * @param missing wanted positions that could not be brought about
   */
  public record Way(List<BenchState> turns, List<BenchState> missing) {

    /** Copies the lists. */
    public Way {
      turns = List.copyOf(turns);
      missing = List.copyOf(missing);
    }
  }

  /** All turns, by the position that they lead to, in the order of the pack. */
  public Map<BenchState, Switch.Turn> turns() {
    return Collections.unmodifiableMap(turns);
  }

  /** The turn that leads to a position on a way. */
  Switch.Turn turn(BenchState target) {
    return turns.get(target);
  }

  /** The positions that must be left before the device counts as closed. */
  public Set<BenchState> open(Set<BenchState> present) {
    Set<BenchState> found = new LinkedHashSet<>(open);
    found.retainAll(present);
    return found;
  }

  /** A way from the present positions to the wanted ones. */
  public Way to(Collection<BenchState> wanted, Set<BenchState> present) {
    Set<BenchState> state = new LinkedHashSet<>(present);
    List<BenchState> way = new ArrayList<>();
    if (reach(wanted, state, way, new LinkedHashSet<>())) {
      return new Way(way, List.of());
    }
    return new Way(List.of(), wanted.stream().filter(w -> !state.contains(w)).toList());
  }

  private boolean reach(
      Collection<BenchState> wanted,
      Set<BenchState> state,
      List<BenchState> way,
      Set<BenchState> underWay) {
    for (int round = 0; round < MOST_ROUNDS && !state.containsAll(wanted); round++) {
      for (BenchState each : wanted) {
        if (!state.contains(each) && !turn(each, state, way, underWay)) {
          return false;
        }
      }
    }
    return state.containsAll(wanted);
  }

  private boolean turn(
      BenchState target, Set<BenchState> state, List<BenchState> way, Set<BenchState> underWay) {
    Switch.Turn turn = turns.get(target);
    if (turn == null || !underWay.add(target)) {
      return false;
    }
    boolean ready = reach(turn.needs(), state, way, underWay);
    underWay.remove(target);
    if (ready) {
      state.remove(new BenchState(target.of(), !target.on()));
      state.add(target);
      way.add(target);
    }
    return ready;
  }
}
