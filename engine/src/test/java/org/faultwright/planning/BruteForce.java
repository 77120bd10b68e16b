package org.faultwright.planning;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Change;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;

/** ECR0 and worth in a {@link SmallWorld}, by trying every sequence to its end. */
final class BruteForce {

  private final SmallWorld world;
  private final BenchWays ways;

  BruteForce(SmallWorld world) {
    this.world = world;
    this.ways = BenchWays.of(world.pack(), world.shop());
  }

  /** The repairs that touch a cause that may be present. */
  private List<Step> repairs() {
    Set<String> possible = new LinkedHashSet<>();
    world.sets().forEach(possible::addAll);
    return world.pack().steps().values().stream()
        .filter(s -> s.changes().keySet().stream().anyMatch(c -> possible.contains(c.value())))
        .toList();
  }

  double ecr0() {
    return ecr0(world.belief(), world.onAtFirst(), Set.of());
  }

  private double ecr0(Map<Set<String>, Double> belief, Set<SwitchId> on, Set<StepId> done) {
    double best = mass(belief) * (world.shop().sendOnFee() + close(on));
    for (Step repair : repairs()) {
      if (!done.contains(repair.id())) {
        best = Math.min(best, from(repair, belief, on, done));
      }
    }
    return best;
  }

  double from(Step repair) {
    return from(repair, world.belief(), world.onAtFirst(), Set.of());
  }

  private double from(
      Step repair, Map<Set<String>, Double> belief, Set<SwitchId> on, Set<StepId> done) {
    Step test = world.pack().steps().get(new StepId(SmallWorld.FUNCTION_TEST));
    Observation.OfNode shows = (Observation.OfNode) test.shows().orElseThrow();
    Set<SwitchId> ready = after(on, SmallWorld.needs(repair));
    Set<SwitchId> tested = after(ready, SmallWorld.needs(test));
    double cost =
        minutes(repair)
            + way(on, SmallWorld.needs(repair))
            + minutes(test)
            + way(ready, SmallWorld.needs(test));
    double sum = mass(belief) * cost;
    Map<Set<String>, Double> failed = new LinkedHashMap<>();
    for (Map.Entry<Set<String>, Double> b : repaired(repair, belief).entrySet()) {
      boolean isLost = !b.getKey().isEmpty();
      double pFail = isLost ? shows.catches().p() : shows.criesWolf().p();
      sum += b.getValue() * (1 - pFail) * (close(tested) + (isLost ? world.shop().comeback() : 0));
      failed.merge(b.getKey(), b.getValue() * pFail, Double::sum);
    }
    Set<StepId> now = new LinkedHashSet<>(done);
    now.add(repair.id());
    return sum + ecr0(failed, tested, now);
  }

  private static Map<Set<String>, Double> repaired(Step repair, Map<Set<String>, Double> belief) {
    Map<Set<String>, Double> now = belief;
    for (Map.Entry<CauseId, Change> change : repair.changes().entrySet()) {
      Map<Set<String>, Double> next = new LinkedHashMap<>();
      String cause = change.getKey().value();
      double cures = change.getValue().cures().p();
      for (Map.Entry<Set<String>, Double> b : now.entrySet()) {
        if (b.getKey().contains(cause)) {
          Set<String> without = new LinkedHashSet<>(b.getKey());
          without.remove(cause);
          next.merge(without, b.getValue() * cures, Double::sum);
          next.merge(b.getKey(), b.getValue() * (1 - cures), Double::sum);
        } else {
          next.merge(b.getKey(), b.getValue(), Double::sum);
        }
      }
      now = next;
    }
    return now;
  }

  double worth(Step test) {
    Observation.OfNode shows = (Observation.OfNode) test.shows().orElseThrow();
    Set<SwitchId> on = world.onAtFirst();
    Set<SwitchId> ready = after(on, SmallWorld.needs(test));
    double worth = ecr0() - minutes(test) - way(on, SmallWorld.needs(test));
    for (boolean positive : new boolean[] {true, false}) {
      Map<Set<String>, Double> left = new LinkedHashMap<>();
      for (Map.Entry<Set<String>, Double> b : world.belief().entrySet()) {
        boolean there =
            shows.node().equals(SmallWorld.lost())
                ? !b.getKey().isEmpty()
                : b.getKey().contains(((CauseId) shows.node()).value());
        double pPositive = there ? shows.catches().p() : shows.criesWolf().p();
        left.put(b.getKey(), b.getValue() * (positive ? pPositive : 1 - pPositive));
      }
      boolean passes = !positive && test.id().value().equals(SmallWorld.FUNCTION_TEST);
      boolean isBack = passes && lost(left) < mass(left) / 2;
      worth -= isBack ? handedOver(left, ready) : ecr0(left, ready, Set.of());
    }
    return worth;
  }

  private double handedOver(Map<Set<String>, Double> belief, Set<SwitchId> on) {
    return mass(belief) * close(on) + lost(belief) * world.shop().comeback();
  }

  private static double lost(Map<Set<String>, Double> belief) {
    return mass(belief) - belief.getOrDefault(Set.of(), 0.0);
  }

  private static double mass(Map<Set<String>, Double> belief) {
    return belief.values().stream().mapToDouble(Double::doubleValue).sum();
  }

  private double minutes(Step step) {
    return step.effort().handsMinutes() * world.shop().rate();
  }

  private double close(Set<SwitchId> on) {
    return ((Route.Way) ways.wayToClose(on)).cost();
  }

  private double way(Set<SwitchId> on, Set<BenchState> needs) {
    return ((Route.Way) ways.way(on, needs)).cost();
  }

  private Set<SwitchId> after(Set<SwitchId> on, Set<BenchState> needs) {
    Set<SwitchId> now = new LinkedHashSet<>(on);
    for (BenchState turn : ((Route.Way) ways.way(on, needs)).turns()) {
      if (turn.on()) {
        now.add(turn.of());
      } else {
        now.remove(turn.of());
      }
    }
    return now;
  }
}
