package org.faultwright.planning;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Change;
import org.faultwright.pack.Observation;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;

/**
 * V* of a small world by trying every policy, written from {@code semantics.md}, Cost: nothing is
 * bounded, kept or looked up.
 */
final class EveryPolicy {

  private final SmallWorld world;
  private final BenchWays ways;
  private final Step functionTest;

  EveryPolicy(SmallWorld world) {
    this.world = world;
    this.ways = BenchWays.of(world.pack(), world.shop());
    this.functionTest = world.pack().steps().get(new StepId(SmallWorld.FUNCTION_TEST));
  }

  double optimum() {
    return optimum(world.belief(), world.onAtFirst(), Set.of(), Set.of(), false);
  }

  /** The least cost for masses that need not sum to 1. */
  private double optimum(
      Map<Set<String>, Double> belief,
      Set<SwitchId> on,
      Set<StepId> done,
      Set<StepId> answered,
      boolean proved) {
    double mass = mass(belief);
    if (mass < 1e-14) {
      return 0;
    }
    if (proved) {
      double lost = mass - belief.getOrDefault(Set.of(), 0.0);
      return mass * cost(ways.wayToClose(on)) + lost * world.shop().comeback();
    }
    double best = mass * (world.shop().sendOnFee() + cost(ways.wayToClose(on)));
    for (Step step : world.pack().steps().values()) {
      if (!step.changes().isEmpty()) {
        if (done.contains(step.id()) || !mayCure(step)) {
          continue;
        }
        best = Math.min(best, repair(step, belief, on, done, answered));
      } else if (!answered.contains(step.id())) {
        best = Math.min(best, test(step, belief, on, done, answered));
      }
    }
    return best;
  }

  /** A cause that nobody suspects at the beginning calls for no repair. */
  private boolean mayCure(Step repair) {
    return repair.changes().keySet().stream()
        .anyMatch(c -> world.sets().stream().anyMatch(set -> set.contains(c.value())));
  }

  private double repair(
      Step repair,
      Map<Set<String>, Double> belief,
      Set<SwitchId> on,
      Set<StepId> done,
      Set<StepId> answered) {
    Set<SwitchId> ready = after(on, repair);
    Set<SwitchId> tested = after(ready, functionTest);
    double sum =
        mass(belief)
            * (minutes(repair)
                + way(on, repair)
                + minutes(functionTest)
                + way(ready, functionTest));
    Map<Set<String>, Double> after = belief;
    for (Map.Entry<CauseId, Change> change : repair.changes().entrySet()) {
      after = cured(after, change.getKey().value(), change.getValue().cures().p());
    }
    Map<Set<String>, Double> failed = new LinkedHashMap<>();
    Map<Set<String>, Double> passed = new LinkedHashMap<>();
    for (Map.Entry<Set<String>, Double> b : after.entrySet()) {
      double pFail = pPositive(functionTest, b.getKey());
      failed.put(b.getKey(), b.getValue() * pFail);
      passed.put(b.getKey(), b.getValue() * (1 - pFail));
    }
    Set<StepId> known = new LinkedHashSet<>(answered);
    for (Step step : world.pack().steps().values()) {
      boolean isTouched =
          step.shows().isPresent()
              && ((Observation.OfNode) step.shows().get()).node() instanceof CauseId cause
              && repair.changes().containsKey(cause);
      if (isTouched) {
        known.remove(step.id());
      }
    }
    known.add(functionTest.id());
    Set<StepId> tried = new LinkedHashSet<>(done);
    tried.add(repair.id());
    return sum
        + optimum(failed, tested, tried, known, false)
        + optimum(passed, tested, tried, known, true);
  }

  private double test(
      Step test,
      Map<Set<String>, Double> belief,
      Set<SwitchId> on,
      Set<StepId> done,
      Set<StepId> answered) {
    Set<SwitchId> ready = after(on, test);
    Set<StepId> known = new LinkedHashSet<>(answered);
    known.add(test.id());
    double sum = mass(belief) * (minutes(test) + way(on, test));
    Map<Set<String>, Double> positive = new LinkedHashMap<>();
    Map<Set<String>, Double> negative = new LinkedHashMap<>();
    belief.forEach(
        (set, p) -> {
          positive.put(set, p * pPositive(test, set));
          negative.put(set, p * (1 - pPositive(test, set)));
        });
    boolean proves = test.id().equals(functionTest.id());
    return sum
        + optimum(positive, ready, done, known, false)
        + optimum(negative, ready, done, known, proves);
  }

  private static double pPositive(Step test, Set<String> causes) {
    Observation.OfNode shows = (Observation.OfNode) test.shows().orElseThrow();
    boolean there =
        shows.node() instanceof CauseId c ? causes.contains(c.value()) : !causes.isEmpty();
    return there ? shows.catches().p() : shows.criesWolf().p();
  }

  private static Map<Set<String>, Double> cured(
      Map<Set<String>, Double> belief, String cause, double cures) {
    Map<Set<String>, Double> left = new LinkedHashMap<>();
    belief.forEach(
        (set, p) -> {
          if (set.contains(cause)) {
            Set<String> without = new LinkedHashSet<>(set);
            without.remove(cause);
            left.merge(without, p * cures, Double::sum);
            left.merge(set, p * (1 - cures), Double::sum);
          } else {
            left.merge(set, p, Double::sum);
          }
        });
    return left;
  }

  private static double mass(Map<Set<String>, Double> belief) {
    return belief.values().stream().mapToDouble(Double::doubleValue).sum();
  }

  private double minutes(Step step) {
    return step.effort().handsMinutes() * world.shop().rate();
  }

  private double way(Set<SwitchId> on, Step step) {
    return cost(ways.way(on, SmallWorld.needs(step)));
  }

  private static double cost(Route route) {
    return ((Route.Way) route).cost();
  }

  private Set<SwitchId> after(Set<SwitchId> on, Step step) {
    Set<SwitchId> now = new LinkedHashSet<>(on);
    for (BenchState turn : ((Route.Way) ways.way(on, SmallWorld.needs(step))).turns()) {
      if (turn.on()) {
        now.add(turn.of());
      } else {
        now.remove(turn.of());
      }
    }
    return now;
  }
}
