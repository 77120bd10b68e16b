package org.faultwright.planning;

import java.util.ArrayList;
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
import org.faultwright.planning.PlanComparison.Way;

/**
 * What a rule of thumb costs in a small world, every branch tried, written from {@code
 * policies.md}: nothing is kept or looked up. Masses need not sum to 1.
 */
final class RuleOfThumb {

  private final SmallWorld world;
  private final Way way;
  private final BenchWays ways;
  private final Step functionTest;

  RuleOfThumb(SmallWorld world, Way way) {
    this.world = world;
    this.way = way;
    this.ways = BenchWays.of(world.pack(), world.shop());
    this.functionTest = world.pack().steps().get(new StepId(SmallWorld.FUNCTION_TEST));
  }

  /** Where a job stands. */
  private record State(
      Map<Set<String>, Double> belief, Set<SwitchId> on, Set<StepId> done, Set<StepId> answered) {
    double mass() {
      return belief.values().stream().mapToDouble(Double::doubleValue).sum();
    }
  }

  double cost() {
    return cost(new State(world.belief(), world.onAtFirst(), Set.of(), Set.of()));
  }

  private double cost(State s) {
    if (s.mass() < 1e-14) {
      return 0;
    }
    Step test = way == Way.MOST_INFORMATION ? mostInformation(s) : null;
    if (test != null) {
      State[] after = after(s, test);
      double negative = test.equals(functionTest) ? handedOver(after[1]) : cost(after[1]);
      return s.mass() * price(s.on, test) + cost(after[0]) + negative;
    }
    Step repair = repair(s);
    if (repair == null) {
      return exit(s);
    }
    State[] after = tried(s, repair);
    return s.mass() * priceOfTrying(s.on, repair) + handedOver(after[1]) + cost(after[0]);
  }

  private double exit(State s) {
    return s.mass() * (world.shop().sendOnFee() + close(s.on));
  }

  private double close(Set<SwitchId> on) {
    return ((Route.Way) ways.wayToClose(on)).cost();
  }

  private double handedOver(State s) {
    double lost = s.mass() - s.belief.getOrDefault(Set.of(), 0.0);
    return s.mass() * close(s.on) + lost * world.shop().comeback();
  }

  // Choosing.

  private List<Step> worthTrying(State s) {
    List<Step> found = new ArrayList<>();
    for (Step step : world.pack().steps().values()) {
      boolean cures =
          step.changes().keySet().stream()
              .anyMatch(c -> world.sets().stream().anyMatch(set -> set.contains(c.value())));
      if (cures && !s.done.contains(step.id())) {
        State[] after = tried(s, step);
        double all = s.mass() * priceOfTrying(s.on, step) + handedOver(after[1]) + exit(after[0]);
        if (all < exit(s) * (1 - 1e-12)) {
          found.add(step);
        }
      }
    }
    return found;
  }

  private Step repair(State s) {
    Step best = null;
    double[] bestRank = {};
    for (Step r : worthTrying(s)) {
      double[] rank = way == Way.LIKELIEST_FIRST ? likelihood(s, r) : perCost(s, r);
      if (best == null || isBefore(rank, bestRank)) {
        best = r;
        bestRank = rank;
      }
    }
    return best;
  }

  private static boolean isBefore(double[] a, double[] b) {
    for (int i = 0; i < a.length; i++) {
      if (Math.abs(a[i] - b[i]) > 1e-12 * Math.max(1, Math.abs(b[i]))) {
        return a[i] > b[i];
      }
    }
    return false;
  }

  /** Most probable cause, the first of equals; then the surest, then the cheapest. */
  private double[] likelihood(State s, Step r) {
    double[] best = {};
    for (Map.Entry<CauseId, Change> c : r.changes().entrySet()) {
      double p = 0;
      for (Map.Entry<Set<String>, Double> b : s.belief.entrySet()) {
        p += b.getKey().contains(c.getKey().value()) ? b.getValue() / s.mass() : 0;
      }
      double order = -world.causes().indexOf(c.getKey().value());
      double[] rank = {p, order, c.getValue().cures().p(), -priceOfTrying(s.on, r)};
      best = p > 0 && (best.length == 0 || isBefore(rank, best)) ? rank : best;
    }
    return best.length == 0 ? new double[] {0, -100, 0, 0} : best;
  }

  private double[] perCost(State s, Step r) {
    double good = tried(s, r)[1].belief.getOrDefault(Set.of(), 0.0) / s.mass();
    double cost = priceOfTrying(s.on, r);
    return new double[] {cost == 0 ? good * 1e12 : good / cost};
  }

  private Step mostInformation(State s) {
    Step best = null;
    double[] bestRank = {};
    for (Step test : world.pack().steps().values()) {
      if (!test.changes().isEmpty() || s.answered.contains(test.id())) {
        continue;
      }
      State[] after = after(s, test);
      double gain =
          (entropy(s.belief) - entropy(after[0].belief) - entropy(after[1].belief)) / s.mass();
      double cost = price(s.on, test);
      double[] rank = {cost == 0 ? gain * 1e12 : gain / cost};
      if (gain >= 0.05 && (best == null || isBefore(rank, bestRank))) {
        best = test;
        bestRank = rank;
      }
    }
    return best;
  }

  /** In bits, times the mass. */
  private static double entropy(Map<Set<String>, Double> belief) {
    double mass = belief.values().stream().mapToDouble(Double::doubleValue).sum();
    return belief.values().stream()
        .filter(p -> p > 0)
        .mapToDouble(p -> -p * Math.log(p / mass) / Math.log(2))
        .sum();
  }

  // Carrying out.

  /** After a test has come out positive, and negative. */
  private State[] after(State s, Step test) {
    Map<Set<String>, Double> positive = new LinkedHashMap<>();
    Map<Set<String>, Double> negative = new LinkedHashMap<>();
    s.belief.forEach(
        (set, p) -> {
          positive.put(set, p * pPositive(test, set));
          negative.put(set, p * (1 - pPositive(test, set)));
        });
    Set<StepId> answered = new LinkedHashSet<>(s.answered);
    answered.add(test.id());
    Set<SwitchId> on = after(s.on, test);
    return new State[] {
      new State(positive, on, s.done, answered), new State(negative, on, s.done, answered)
    };
  }

  /** After a repair and its function test, which has failed, and passed. */
  private State[] tried(State s, Step repair) {
    Map<Set<String>, Double> now = s.belief;
    for (Map.Entry<CauseId, Change> change : repair.changes().entrySet()) {
      Map<Set<String>, Double> next = new LinkedHashMap<>();
      String cause = change.getKey().value();
      double cures = change.getValue().cures().p();
      now.forEach(
          (set, p) -> {
            Set<String> without = new LinkedHashSet<>(set);
            double cured = without.remove(cause) ? cures : 0;
            next.merge(Set.copyOf(without), p * cured, Double::sum);
            next.merge(set, p * (1 - cured), Double::sum);
          });
      now = next;
    }
    Set<StepId> answered = new LinkedHashSet<>(s.answered);
    for (Step step : world.pack().steps().values()) {
      if (step.shows().isPresent()
          && ((Observation.OfNode) step.shows().get()).node() instanceof CauseId cause
          && repair.changes().containsKey(cause)) {
        answered.remove(step.id());
      }
    }
    Set<StepId> done = new LinkedHashSet<>(s.done);
    done.add(repair.id());
    return after(new State(now, after(s.on, repair), done, answered), functionTest);
  }

  private static double pPositive(Step test, Set<String> causes) {
    Observation.OfNode shows = (Observation.OfNode) test.shows().orElseThrow();
    boolean there =
        shows.node() instanceof CauseId c ? causes.contains(c.value()) : !causes.isEmpty();
    return there ? shows.catches().p() : shows.criesWolf().p();
  }

  private double priceOfTrying(Set<SwitchId> on, Step repair) {
    return price(on, repair) + price(after(on, repair), functionTest);
  }

  private double price(Set<SwitchId> on, Step step) {
    return step.effort().handsMinutes() * world.shop().rate()
        + ((Route.Way) ways.way(on, SmallWorld.needs(step))).cost();
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
