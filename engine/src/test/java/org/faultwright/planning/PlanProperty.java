package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.Map;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.oracle.StepSketch;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;

/** Whole plans against every policy, and what must hold whatever the numbers are. */
class PlanProperty {

  /** Sums of some thousand products of numbers below 1000. */
  private static final double CLOSE = 1e-7;

  @Provide
  Arbitrary<SmallWorld> small() {
    return Arbitraries.randomValue(
        random -> SmallWorld.draw(new SplittableRandom(random.nextLong()), 2));
  }

  static Plan plan(Pack pack, Shop shop, LikelyWorlds worlds, PlanLimits limits) {
    return Planner.of(DeviceModel.of(pack), shop)
        .plan(
            worlds,
            Bench.reported(pack, "complaint"),
            Bench.INTAKE,
            Bench.everything(pack),
            limits);
  }

  private static Plan plan(SmallWorld world, PlanLimits limits) {
    return plan(world.pack(), world.shop(), world.worlds(), limits);
  }

  private static PlanLimits ahead(int steps) {
    return new PlanLimits(Duration.ofMinutes(1), steps, 1e-12, 1000);
  }

  @Property(tries = 100)
  void optimum_isThatOfEveryPolicyTried(@ForAll("small") SmallWorld world) {
    Plan plan = plan(world, PlanLimits.EXACT);

    assertThat(plan.gap()).isLessThan(CLOSE);
    assertThat(plan.expectedCost()).isEqualTo(new EveryPolicy(world).optimum(), within(CLOSE));
  }

  /**
   * Of the policy that is known at the first place. A whole plan looks ahead again from each of its
   * steps, so that one that looks less far may find by chance what one that looks further does not.
   */
  @Property(tries = 40)
  void lookingFurtherAhead_neverCostsMore_andTheBoundsHold(@ForAll("small") SmallWorld world) {
    double optimum = new EveryPolicy(world).optimum();
    double withoutTests = world.look().costWithoutTests();
    double before = withoutTests;
    for (int n = 0; n < 4; n++) {
      PlanPlace first = lookedAhead(world, n);
      assertThat(first.atLeast).isLessThanOrEqualTo(optimum + CLOSE);
      assertThat(first.cost).isBetween(optimum - CLOSE, before + CLOSE);
      before = first.cost;

      Plan plan = plan(world, ahead(n));
      assertThat(plan.atLeast()).isLessThanOrEqualTo(optimum + CLOSE);
      assertThat(plan.expectedCost()).isBetween(optimum - CLOSE, withoutTests + CLOSE);
    }
  }

  /** The clock decides where the plan stops, so that only a bound can be asked for. */
  @Property(tries = 60)
  void withHardlyAnyTime_aPlanKeepsToTheRepairsThatAreKnown(@ForAll("small") SmallWorld world) {
    PlanLimits hurried = new PlanLimits(Duration.ofNanos(1), 1000, 1e-12, 1000);

    assertThat(plan(world, hurried).expectedCost())
        .isLessThanOrEqualTo(world.look().costWithoutTests() + CLOSE);
  }

  private static PlanPlace lookedAhead(SmallWorld world, int steps) {
    Planner planner = Planner.of(DeviceModel.of(world.pack()), world.shop());
    Permissions all = Bench.everything(world.pack());
    PlanSearch search =
        new PlanSearch(planner, Bench.INTAKE, all, world.worlds(), world.now(), 0, Long.MAX_VALUE);
    search.lookAhead(search.first(), steps, Long.MAX_VALUE);
    return search.first();
  }

  @Property(tries = 40)
  void figures_addUpToTheExpectedCost(@ForAll("small") SmallWorld world) {
    Plan plan = plan(world, PlanLimits.EXACT);
    Spend expected = plan.expected();

    assertThat(expected.cost(world.shop())).isEqualTo(plan.expectedCost(), within(CLOSE));
    assertThat(plan.courses().stream().mapToDouble(Plan.Course::p).sum())
        .isEqualTo(1, within(1e-9));
    assertThat(plan.endings().values().stream().mapToDouble(Double::doubleValue).sum())
        .isEqualTo(1, within(1e-9));
    assertThat(plan.pOpen()).isEqualTo(0);
    assertThat(plan.hands(0.9).orElseThrow()).isGreaterThanOrEqualTo(plan.hands(0.5).orElseThrow());
  }

  @Property(tries = 25)
  void allPricesTimesTwo_changeNoStep(@ForAll("small") SmallWorld world) {
    Shop s = world.shop();
    Shop dear =
        new Shop(
            2 * s.rate(),
            2 * s.waitRate(),
            2 * s.sendOnFee(),
            2 * s.salvage(),
            2 * s.comeback(),
            2 * s.partPrice(),
            Map.of(),
            s.proof());
    Plan once = plan(world, PlanLimits.EXACT);
    Plan twice = plan(world.with(dear), PlanLimits.EXACT);

    assertThat(twice.expectedCost()).isEqualTo(2 * once.expectedCost(), within(CLOSE));
    assertThat(first(twice.root())).isEqualTo(first(once.root()));
  }

  private static String first(PlanNode node) {
    if (node instanceof PlanNode.DoTest test) {
      return test.step().value();
    } else if (node instanceof PlanNode.DoRepair repair) {
      return repair.step().value();
    }
    return node instanceof PlanNode.End end ? end.ending().name() : "and so on";
  }

  @Property(tries = 25)
  void whatIsNotFollowed_isNamed_andTheCostStays(@ForAll("small") SmallWorld world) {
    Plan whole = plan(world, PlanLimits.EXACT);
    Plan cut = plan(world, new PlanLimits(Duration.ofMinutes(1), 1000, 0.2, 2));

    assertThat(cut.expectedCost()).isEqualTo(whole.expectedCost(), within(CLOSE));
    double ended = cut.endings().values().stream().mapToDouble(Double::doubleValue).sum();
    assertThat(ended + cut.pOpen()).isEqualTo(1, within(1e-9));
  }

  /** A test that costs nothing and comes out the same way whatever there is. */
  private static Pack withIdleTest(SmallWorld world) {
    PackDraft draft = PackDraft.of(world.pack());
    draft.step(
        Bench.costing(
            new StepSketch("idle").looksAt(new CauseId(world.causes().get(0)), 0.3, 0.3).build(),
            0));
    return draft.build();
  }

  @Property(tries = 25)
  void aFreeTestThatTellsNothing_changesNeitherCostNorSteps(@ForAll("small") SmallWorld world) {
    Plan plan = plan(world, PlanLimits.EXACT);
    Plan with = plan(world.with(withIdleTest(world)), PlanLimits.EXACT);

    assertThat(with.expectedCost()).isEqualTo(plan.expectedCost(), within(CLOSE));
    assertThat(steps(with.root())).isEqualTo(steps(plan.root()));
  }

  /** The steps of a plan with what they lead to. */
  private static String steps(PlanNode node) {
    if (node instanceof PlanNode.DoTest test) {
      return first(node)
          + test.branches().stream().map(b -> b.seen() + ": " + steps(b.then())).toList();
    } else if (node instanceof PlanNode.DoRepair repair) {
      return first(node) + "[" + steps(repair.ifPassed()) + ", " + steps(repair.ifFailed()) + "]";
    }
    return first(node);
  }
}
