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

  private final Positions[] onNeeds;
  private final Positions[] offNeeds;

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
    this.onNeeds = switches.stream().map(s -> needs(s, true)).toArray(Positions[]::new);
    this.offNeeds = switches.stream().map(s -> needs(s, false)).toArray(Positions[]::new);
    this.combinations = switches.size() <= MOST_SWITCHES ? Optional.of(walk()) : Optional.empty();
    if (combinations.isEmpty()) {
      grow();
    }
  }

  /** Whether the bench can be in all these positions at once. */
  boolean canHave(Set<BenchState> together) {
    if (combinations.isPresent()) {
      Positions wanted = positions(together);
      return combinations.get().stream().anyMatch(c -> wanted.areIn(c) && isQuiet(c));
    }
    return together.stream().allMatch(s -> (s.on() ? canBeOn : canBeOff).get(index(s)));
  }

  /**
   * A switch that is off in a closed device and may stay on for ever, once the bench has come
   * there; empty where there is none, or too many switches to tell.
   */
  Optional<Switch> leftOpen() {
    if (combinations.isEmpty()) {
      return Optional.empty();
    }
    int open = 0;
    for (int i = 0; i < switches.size(); i++) {
      open |= switches.get(i).closedWhenOff() ? 1 << i : 0;
    }
    BitSet reached = combinations.get();
    BitSet closes = new BitSet();
    for (int c = reached.nextSetBit(0); c >= 0; c = reached.nextSetBit(c + 1)) {
      closes.set(c, (c & open) == 0);
    }
    boolean grows = true;
    while (grows) {
      grows = false;
      for (int c = reached.nextSetBit(0); c >= 0; c = reached.nextSetBit(c + 1)) {
        if (!closes.get(c) && leadsInto(c, closes)) {
          closes.set(c);
          grows = true;
        }
      }
    }
    for (int c = reached.nextSetBit(0); c >= 0; c = reached.nextSetBit(c + 1)) {
      if (!closes.get(c)) {
        return Optional.of(switches.get(Integer.numberOfTrailingZeros(c & open)));
      }
    }
    return Optional.empty();
  }

  /** Whether one turn leads from a combination into one of the set. */
  private boolean leadsInto(int from, BitSet set) {
    for (int i = 0; i < switches.size(); i++) {
      Positions needs = (from & 1 << i) == 0 ? onNeeds[i] : offNeeds[i];
      if (set.get(from ^ 1 << i) && needs.areIn(from)) {
        return true;
      }
    }
    return false;
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
        int to = from ^ 1 << i;
        Positions needs = (from & 1 << i) == 0 ? onNeeds[i] : offNeeds[i];
        if (!reached.get(to) && needs.areIn(from)) {
          reached.set(to);
          open.push(to);
        }
      }
    }
    return reached;
  }

  /** What turning a switch needs; impossible where it cannot or must not be turned. */
  private Positions needs(Switch s, boolean turnsOn) {
    return turn(s, turnsOn)
        .filter(t -> isAllowed(s, turnsOn))
        .map(t -> positions(t.needs()))
        .orElse(Positions.IMPOSSIBLE);
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

  private Positions positions(Set<BenchState> states) {
    int mask = 0;
    int on = 0;
    for (BenchState state : states) {
      int bit = 1 << index(state);
      if ((mask & bit) != 0 && (on & bit) != 0 != state.on()) {
        return Positions.IMPOSSIBLE;
      }
      mask |= bit;
      on |= state.on() ? bit : 0;
    }
    return new Positions(mask, on);
  }

  /** Switches that must be in a position: those of the mask, on where the second number says so. */
  private record Positions(int mask, int on) {
    static final Positions IMPOSSIBLE = new Positions(0, 1);

    boolean areIn(int combination) {
      return (combination & mask) == on;
    }
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
