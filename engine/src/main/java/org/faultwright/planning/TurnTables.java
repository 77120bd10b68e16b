package org.faultwright.planning;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.SwitchId;

/**
 * Which turns are allowed now, by the guards of the rules, in each state of the bench that such a
 * guard asks for.
 */
final class TurnTables implements BenchWays.Allowed {

  private final List<BenchState> turns;

  /** For each turn the switches that its guard asks for, as places. */
  private final int[][] asked;

  /** For each turn, whether it is allowed, by the positions of the switches asked for. */
  private final boolean[][] allowed;

  /** Tables with the same key allow the same. */
  final String key;

  TurnTables(
      List<BenchState> turns, List<SwitchId> places, Permissions permissions, Situation now) {
    this.turns = turns;
    asked = new int[turns.size()][];
    allowed = new boolean[turns.size()][];
    StringBuilder text = new StringBuilder();
    for (int t = 0; t < turns.size(); t++) {
      Guard guard = permissions.turns().get(turns.get(t));
      Set<SwitchId> switches = new LinkedHashSet<>();
      if (guard != null) {
        switches.addAll(new GuardReferences(guard.condition()).switches);
        switches.retainAll(places);
      }
      asked[t] = switches.stream().mapToInt(places::indexOf).toArray();
      allowed[t] = new boolean[1 << asked[t].length];
      for (int positions = 0; positions < allowed[t].length; positions++) {
        allowed[t][positions] =
            guard != null && guard.holdsIn(with(now, List.copyOf(switches), switches, positions));
        text.append(allowed[t][positions] ? '+' : '-');
      }
      for (int place : asked[t]) {
        text.append((char) ('a' + place));
      }
    }
    key = text.toString();
  }

  private static Situation with(
      Situation now, List<SwitchId> order, Set<SwitchId> switches, int positions) {
    if (order.isEmpty()) {
      return now;
    }
    Set<SwitchId> on = new LinkedHashSet<>(now.on());
    on.removeAll(switches);
    int i = 0;
    for (SwitchId s : switches) {
      if ((positions >> i++ & 1) == 1) {
        on.add(s);
      }
    }
    return now.withOn(on);
  }

  List<BenchState> turns() {
    return turns;
  }

  @Override
  public boolean turn(int turn, int state) {
    int positions = 0;
    for (int i = 0; i < asked[turn].length; i++) {
      positions |= (state >> asked[turn][i] & 1) << i;
    }
    return allowed[turn][positions];
  }
}
