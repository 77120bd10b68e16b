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

  /** Steps that are closed until a test comes out positive, each with that test. */
  private final Map<StepId, StepId> openedBy;

  BruteForce(SmallWorld world) {
    this(world, Map.of());
  }

  BruteForce(SmallWorld world, Map<StepId, StepId> openedBy) {
    this.world = world;
    this.openedBy = openedBy;
    this.ways = BenchWays.of(world.pack(), world.shop());
  }

  private boolean isOpen(Step step, Set<StepId> positive) {
    return !openedBy.containsKey(step.id()) || positive.contains(openedBy.get(step.id()));
  }

  /** What was positive and has not been touched since. */
  private Set<StepId> standing(Step repair, Set<StepId> positive) {
    Set<StepId> standing = new LinkedHashSet<>(positive);
    standing.removeIf(
        test ->
            shows(world.pack().steps().get(test)).node() instanceof CauseId cause
                && repair.changes().containsKey(cause));
    return standing;
  }

  private static Observation.OfNode shows(Step test) {
    return (Observation.OfNode) test.shows().orElseThrow();
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
    return ecr0(world.belief(), world.onAtFirst(), Set.of(), Set.of());
  }

  private double ecr0(
      Map<Set<String>, Double> belief, Set<SwitchId> on, Set<StepId> done, Set<StepId> positive) {
    double best = mass(belief) * (world.shop().sendOnFee() + close(on));
    for (Step repair : repairs()) {
      if (!done.contains(repair.id()) && isOpen(repair, positive)) {
        best = Math.min(best, from(repair, belief, on, done, positive));
      }
    }
    return best;
  }

  double from(Step repair) {
    return from(repair, world.belief(), world.onAtFirst(), Set.of(), Set.of());
  }

  private double from(
      Step repair,
      Map<Set<String>, Double> belief,
      Set<SwitchId> on,
      Set<StepId> done,
      Set<StepId> positive) {
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
    return sum + ecr0(failed, tested, now, standing(repair, positive));
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

  /** With no test after it. */
  double worth(Step test) {
    return worth(test, false);
  }

  /**
   * What a test is worth.
   *
   * @param followed whether one of the tests that it opens may follow
   */
  double worth(Step test, boolean followed) {
    return ecr0() - with(test, world.belief(), world.onAtFirst(), Set.of(), followed);
  }

  /** What the job takes with a test, for masses that need not sum to 1. */
  private double with(
      Step test,
      Map<Set<String>, Double> belief,
      Set<SwitchId> on,
      Set<StepId> positiveBefore,
      boolean followed) {
    Set<SwitchId> ready = after(on, SmallWorld.needs(test));
    double sum = mass(belief) * (minutes(test) + way(on, SmallWorld.needs(test)));
    for (boolean positive : new boolean[] {true, false}) {
      Map<Set<String>, Double> left = new LinkedHashMap<>();
      for (Map.Entry<Set<String>, Double> b : belief.entrySet()) {
        double pPositive = pPositive(test, b.getKey());
        left.put(b.getKey(), b.getValue() * (positive ? pPositive : 1 - pPositive));
      }
      boolean passes = !positive && test.id().value().equals(SmallWorld.FUNCTION_TEST);
      if (passes && lost(left) < mass(left) / 2) {
        sum += handedOver(left, ready);
        continue;
      }
      Set<StepId> positiveNow = new LinkedHashSet<>(positiveBefore);
      if (positive) {
        positiveNow.add(test.id());
      }
      double best = ecr0(left, ready, Set.of(), positiveNow);
      for (Step then : world.pack().steps().values()) {
        if (followed
            && test.id().equals(openedBy.get(then.id()))
            && then.shows().isPresent()
            && isOpen(then, positiveNow)) {
          best = Math.min(best, with(then, left, ready, positiveNow, false));
        }
      }
      sum += best;
    }
    return sum;
  }

  private static double pPositive(Step test, Set<String> causes) {
    boolean there =
        shows(test).node() instanceof CauseId cause
            ? causes.contains(cause.value())
            : !causes.isEmpty();
    return there ? shows(test).catches().p() : shows(test).criesWolf().p();
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
