package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SwitchId;

/** The cheapest ways, against relaxing all turns until nothing changes (Bellman and Ford). */
class BenchWaysProperty {

  private static final double CLOSE = 1e-9;

  record Ways(Pack pack, Set<SwitchId> from, Set<BenchState> needs) {}

  @Provide
  Arbitrary<Ways> ways() {
    return Arbitraries.randomValue(random -> draw(new SplittableRandom(random.nextLong())));
  }

  private static Ways draw(SplittableRandom random) {
    int n = random.nextInt(1, 6);
    PackDraft draft = new PackDraft(PackId.parse("test/switches"));
    for (int i = 0; i < n; i++) {
      Switch.Turn on = random.nextInt(6) == 0 ? null : turn(random, n, i);
      Switch.Turn off = random.nextInt(6) == 0 ? null : turn(random, n, i);
      draft.benchSwitch(Bench.benchSwitch("s" + i, random.nextBoolean(), on, off, false));
    }
    Set<BenchState> needs = new LinkedHashSet<>();
    Set<SwitchId> from = new LinkedHashSet<>();
    BenchState[] all = new BenchState[n];
    for (int i = 0; i < n; i++) {
      all[i] = Bench.on("s" + i);
      if (random.nextBoolean()) {
        needs.add(random.nextBoolean() ? Bench.on("s" + i) : Bench.off("s" + i));
      }
      if (random.nextBoolean()) {
        from.add(new SwitchId("s" + i));
      }
    }
    draft.step(Bench.needing(new StepSketch("all-on").build(), all));
    return new Ways(draft.build(), from, needs);
  }

  private static Switch.Turn turn(SplittableRandom random, int n, int own) {
    List<BenchState> needs = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      if (i != own && random.nextInt(4) == 0) {
        needs.add(random.nextBoolean() ? Bench.on("s" + i) : Bench.off("s" + i));
      }
    }
    return Bench.turn(random.nextInt(0, 10), needs.toArray(BenchState[]::new));
  }

  @Property(tries = 500)
  void cost_isThatOfRelaxation_andTheTurnsLeadThere(@ForAll("ways") Ways w) {
    double expected = relaxed(w);
    Route route = BenchWays.of(w.pack, Bench.PLAIN).way(w.from, w.needs);

    if (Double.isInfinite(expected)) {
      assertThat(route).isEqualTo(new Route.Unreachable());
      return;
    }
    Route.Way way = (Route.Way) route;
    assertThat(way.cost()).isEqualTo(expected, within(CLOSE));
    Set<SwitchId> on = new LinkedHashSet<>(w.from);
    double cost = 0;
    for (BenchState turn : way.turns()) {
      Switch s = w.pack.switches().get(turn.of());
      Switch.Turn made = (turn.on() ? s.turnOn() : s.turnOff()).orElseThrow();
      assertThat(on.contains(turn.of())).isNotEqualTo(turn.on());
      assertThat(made.needs()).allMatch(b -> on.contains(b.of()) == b.on());
      cost += made.effort().handsMinutes();
      if (turn.on()) {
        on.add(turn.of());
      } else {
        on.remove(turn.of());
      }
    }
    assertThat(w.needs).allMatch(b -> on.contains(b.of()) == b.on());
    assertThat(cost).isEqualTo(way.cost(), within(CLOSE));
  }

  private static double relaxed(Ways w) {
    List<Switch> switches = List.copyOf(w.pack.switches().values());
    double[] cost = new double[1 << switches.size()];
    Arrays.fill(cost, Double.POSITIVE_INFINITY);
    cost[state(switches, w.from)] = 0;
    for (int round = 0; round < cost.length; round++) {
      for (int s = 0; s < cost.length; s++) {
        for (int i = 0; i < switches.size(); i++) {
          boolean isOn = (s >> i & 1) == 1;
          Optional<Switch.Turn> turn = isOn ? switches.get(i).turnOff() : switches.get(i).turnOn();
          if (turn.isPresent() && meets(switches, s, turn.get().needs())) {
            int next = s ^ 1 << i;
            cost[next] = Math.min(cost[next], cost[s] + turn.get().effort().handsMinutes());
          }
        }
      }
    }
    double best = Double.POSITIVE_INFINITY;
    for (int s = 0; s < cost.length; s++) {
      best = meets(switches, s, w.needs) ? Math.min(best, cost[s]) : best;
    }
    return best;
  }

  private static int state(List<Switch> switches, Set<SwitchId> on) {
    int state = 0;
    for (int i = 0; i < switches.size(); i++) {
      state |= on.contains(switches.get(i).id()) ? 1 << i : 0;
    }
    return state;
  }

  private static boolean meets(List<Switch> switches, int state, Set<BenchState> needs) {
    return needs.stream()
        .allMatch(
            b -> {
              int i = switches.stream().map(Switch::id).toList().indexOf(b.of());
              return (state >> i & 1) == (b.on() ? 1 : 0);
            });
  }
}
