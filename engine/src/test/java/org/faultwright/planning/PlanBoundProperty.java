package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Deque;
import java.util.EnumSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.PackFeature;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;

/**
 * What a plan knows of each place without having looked further, against every plan tried there: on
 * packs with harm, hiding, followers, groups, unsure repairs and whatever else packs may have.
 */
class PlanBoundProperty {

  /** Sums of some thousand products of numbers below 1000. */
  private static final double CLOSE = 1e-7;

  /** Costs that differ by less are the same. */
  private static final double SAME = 1e-8;

  /** What plans may do again and again has no end to try. */
  private static final Set<PackFeature> FINITE =
      EnumSet.complementOf(EnumSet.of(PackFeature.REPEATABLE));

  record Case(Pack pack, Shop shop, List<Fact> facts, Permissions some) {}

  @Provide
  Arbitrary<Case> rich() {
    return Arbitraries.randomValue(PlanBoundProperty::draw);
  }

  private static Case draw(Random seed) {
    SplittableRandom random = new SplittableRandom(seed.nextLong());
    Pack pack = PricedPacks.draw(random, FINITE);
    return new Case(
        pack, PricedPacks.shop(random), PricedPacks.facts(random, pack, true), some(pack, random));
  }

  /** A few steps, some of them only before or after others. */
  private static Permissions some(Pack pack, SplittableRandom random) {
    List<StepId> all = new ArrayList<>(pack.steps().keySet());
    Collections.shuffle(all, new Random(random.nextLong()));
    List<StepId> few = all.subList(0, Math.min(all.size(), 5));
    Map<StepId, Guard> steps = new LinkedHashMap<>();
    for (StepId step : pack.steps().keySet()) {
      if (few.contains(step)) {
        Condition done = new Condition.Done(few.get(random.nextInt(few.size())));
        steps.put(
            step,
            new Guard(
                switch (random.nextInt(6)) {
                  case 0 -> done;
                  case 1 -> new Condition.Not(done);
                  default -> new Condition.Always();
                }));
      }
    }
    return new Permissions(steps, Bench.turns(pack));
  }

  private static LikelyWorlds worlds(Case c) {
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(c.pack);
    BeliefResult result = compiled.belief(Facts.told(c.facts));
    Assume.that(result instanceof Belief);
    return ((Belief) result).worldsAhead(1e-3, 40);
  }

  private static PlanSearch search(Case c) {
    LikelyWorlds worlds = worlds(c);
    Situation now = PricedPacks.situation(c.pack, c.facts);
    Planner planner = Planner.of(DeviceModel.of(c.pack), c.shop);
    return new PlanSearch(planner, Bench.INTAKE, c.some, worlds, now, 0, Long.MAX_VALUE);
  }

  @Property(tries = 60)
  void floorsAndKnownPolicies_encloseTheOptimum(@ForAll("rich") Case c) {
    PlanSearch search = search(c);
    EveryPlan every = new EveryPlan(search.scenes());
    search.lookAhead(search.first(), 1, Long.MAX_VALUE);

    int checked = 0;
    for (PlanPlace place : places(search.first())) {
      double optimum = every.cost(place.scene, place.belief);
      if (!Double.isNaN(optimum) && checked++ < 50) {
        assertThat(place.atLeast).isLessThanOrEqualTo(optimum + CLOSE);
        assertThat(place.cost).isGreaterThanOrEqualTo(optimum - CLOSE);
        for (int o = 0; place.steps != null && o < place.floors.length; o++) {
          double from = every.cost(place.scene, place.belief, place.steps[o]);
          assertThat(place.floors[o]).isLessThanOrEqualTo(Math.max(from, place.cost) + CLOSE);
        }
      }
    }
    Assume.that(checked > 0);
    Statistics.label("doubt").collect(search.doubt(search.first()) > 0);
  }

  /** All places that have been looked at and where the job is not over. */
  private static List<PlanPlace> places(PlanPlace first) {
    Set<PlanPlace> met = Collections.newSetFromMap(new IdentityHashMap<>());
    List<PlanPlace> found = new ArrayList<>();
    Deque<PlanPlace> next = new ArrayDeque<>(List.of(first));
    while (!next.isEmpty()) {
      PlanPlace place = next.remove();
      if (place.belief != null && met.add(place)) {
        found.add(place);
        Stream.ofNullable(place.options)
            .flatMap(Arrays::stream)
            .filter(Objects::nonNull)
            .flatMap(option -> Arrays.stream(option.then))
            .filter(Objects::nonNull)
            .forEach(next::add);
      }
    }
    return found;
  }

  /**
   * Nothing is kept or bounded by the other; of steps that cost the same the pack's first counts.
   */
  @Property(tries = 80)
  void plan_isTheFirstOfTheCheapestThatEveryPlanFinds(@ForAll("rich") Case c) {
    PlanSearch search = search(c);
    PlanPlace first = search.first();
    Assume.that(first.belief != null);
    EveryPlan every = new EveryPlan(search.scenes());
    double optimum = every.cost(first.scene, first.belief);
    Assume.that(!Double.isNaN(optimum));
    Plan plan =
        Planner.of(DeviceModel.of(c.pack), c.shop)
            .plan(
                worlds(c),
                PricedPacks.situation(c.pack, c.facts),
                Bench.INTAKE,
                c.some,
                PlanLimits.EXACT);

    assertThat(plan.gap()).isLessThan(CLOSE);
    assertThat(plan.expectedCost()).isEqualTo(optimum, within(CLOSE));
    String expected = "";
    for (PlanScene.Step step : first.scene.steps()) {
      boolean isCheapest = every.cost(first.scene, first.belief, step) <= optimum + SAME;
      if (expected.isEmpty() && optimum < first.scene.exit() - SAME && isCheapest) {
        expected = search.device().steps.get(step.step()).id().value();
      }
    }
    assertThat(HostCase.step(plan.root())).isEqualTo(expected);
  }
}
