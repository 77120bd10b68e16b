package org.faultwright.pack.check;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Switch;

/**
 * The states of the bench that can be reached from how a device is taken in, by turning one switch
 * at a time.
 *
 * <p>Walks through all combinations of up to {@value #MOST_SWITCHES} switches. With more, it takes
 * each position by itself and so may find reachable what is not, never the other way round.
 */
final class BenchReach {

  /** Switches up to which all combinations, at most 4096, are looked at. */
  static final int MOST_SWITCHES = 12;

  private final List<Switch> switches;
  private final Set<ActivityId> forbidden;

  /** Reachable combinations, one bit for each switch that is on; empty where there are too many. */
  private final Optional<BitSet> combinations;

  private final BitSet canBeOn = new BitSet();
  private final BitSet canBeOff = new BitSet();

  /**
   * Walks.
   *
   * @param forbidden activities that no turn may involve, and during which nothing may be turned
   *     but the switch that ends them
   */
  BenchReach(Pack pack, Set<ActivityId> forbidden) {
    this.switches = List.copyOf(pack.switches().values());
    this.forbidden = forbidden;
    this.combinations = switches.size() <= MOST_SWITCHES ? Optional.of(walk()) : Optional.empty();
    if (combinations.isEmpty()) {
      grow();
    }
  }

  /** Whether the bench can be in all these positions at once. */
  boolean canHave(Set<BenchState> together) {
    if (combinations.isPresent()) {
      return combinations.get().stream().anyMatch(c -> has(c, together) && isQuiet(c));
    }
    return together.stream().allMatch(s -> (s.on() ? canBeOn : canBeOff).get(index(s)));
  }

  private BitSet walk() {
    int start = 0;
    for (int i = 0; i < switches.size(); i++) {
      start |= switches.get(i).startsOn() ? 1 << i : 0;
    }
    BitSet reached = new BitSet();
    Deque<Integer> open = new ArrayDeque<>(List.of(start));
    reached.set(start);
    while (!open.isEmpty()) {
      int from = open.pop();
      for (int i = 0; i < switches.size(); i++) {
        boolean turnsOn = (from & 1 << i) == 0;
        int to = from ^ 1 << i;
        Optional<Switch.Turn> turn = turn(switches.get(i), turnsOn);
        if (!reached.get(to)
            && turn.isPresent()
            && isAllowed(switches.get(i), turnsOn)
            && has(from, turn.get().needs())) {
          reached.set(to);
          open.push(to);
        }
      }
    }
    return reached;
  }

  private void grow() {
    for (int i = 0; i < switches.size(); i++) {
      (switches.get(i).startsOn() ? canBeOn : canBeOff).set(i);
    }
    boolean grows = true;
    while (grows) {
      grows = false;
      for (int i = 0; i < switches.size(); i++) {
        for (boolean on : new boolean[] {true, false}) {
          BitSet positions = on ? canBeOn : canBeOff;
          Optional<Switch.Turn> turn = turn(switches.get(i), on);
          if (!positions.get(i)
              && turn.isPresent()
              && isAllowed(switches.get(i), on)
              && canHave(turn.get().needs())) {
            positions.set(i);
            grows = true;
          }
        }
      }
    }
  }

  private static Optional<Switch.Turn> turn(Switch s, boolean on) {
    return on ? s.turnOn() : s.turnOff();
  }

  private boolean isAllowed(Switch s, boolean turnsOn) {
    return Collections.disjoint(turn(s, turnsOn).orElseThrow().does(), forbidden)
        && !(turnsOn && !Collections.disjoint(s.whileOn(), forbidden));
  }

  /** Whether nothing forbidden goes on. */
  private boolean isQuiet(int combination) {
    for (int i = 0; i < switches.size(); i++) {
      if ((combination & 1 << i) != 0
          && !Collections.disjoint(switches.get(i).whileOn(), forbidden)) {
        return false;
      }
    }
    return true;
  }

  private boolean has(int combination, Set<BenchState> positions) {
    return positions.stream().allMatch(p -> (combination & 1 << index(p)) != 0 == p.on());
  }

  private int index(BenchState state) {
    for (int i = 0; i < switches.size(); i++) {
      if (switches.get(i).id().equals(state.of())) {
        return i;
      }
    }
    throw new IllegalArgumentException("no such switch: " + state.of());
  }

  /** The positions by the names that packs use, in order. */
  static String inWords(Pack pack, Set<BenchState> positions) {
    List<String> names = new ArrayList<>();
    for (BenchState p : positions) {
      Switch s = pack.switches().get(p.of());
      names.add("'" + (p.on() ? s.id() : s.offCalled()) + "'");
    }
    return String.join(", ", names);
  }
}
