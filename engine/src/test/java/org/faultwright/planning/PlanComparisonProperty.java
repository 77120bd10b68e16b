package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.TreeMap;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanComparison.Row;
import org.faultwright.planning.PlanComparison.Way;

/** A plan beside rules of thumb. */
class PlanComparisonProperty {

  /** Sums of some thousand products of numbers below 1000. */
  private static final double CLOSE = 1e-7;

  @Provide
  Arbitrary<SmallWorld> small() {
    return Arbitraries.randomValue(
        random -> SmallWorld.draw(new SplittableRandom(random.nextLong()), 2));
  }

  private static PlanComparison compared(SmallWorld world, ComparisonLimits limits) {
    Planner planner = Planner.of(DeviceModel.of(world.pack()), world.shop());
    Permissions all = Bench.everything(world.pack());
    Plan plan = planner.plan(world.worlds(), world.now(), Bench.INTAKE, all, PlanLimits.EXACT);
    return planner.compare(world.worlds(), world.now(), Bench.INTAKE, all, plan, limits);
  }

  @Property(tries = 60)
  void optimum_isNoDearerThanAnyRule(@ForAll("small") SmallWorld world) {
    PlanComparison compared = compared(world, new ComparisonLimits(100_000, 0, 1));
    double optimum = new EveryPolicy(world).optimum();

    for (Row row : compared.rows()) {
      assertThat(row.pBeyond()).isZero();
      assertThat(row.expectedCost()).as("" + row.way()).isGreaterThanOrEqualTo(optimum - CLOSE);
      Spend expected = row.course().expected();
      assertThat(expected.cost(world.shop())).isEqualTo(row.expectedCost(), within(CLOSE));
      assertThat(row.course().endings().values().stream().mapToDouble(p -> p).sum())
          .isEqualTo(1, within(1e-9));
    }
    assertThat(compared.row(Way.PLAN).expectedCost()).isEqualTo(optimum, within(CLOSE));
  }

  @Property(tries = 60)
  void rules_costWhatBruteForceSays(@ForAll("small") SmallWorld world) {
    PlanComparison compared = compared(world, new ComparisonLimits(100_000, 0, 1));

    for (Way way : Way.values()) {
      if (way != Way.PLAN) {
        assertThat(compared.row(way).expectedCost())
            .as("" + way)
            .isEqualTo(new RuleOfThumb(world, way).cost(), within(CLOSE));
      }
    }
  }

  @Property(tries = 40)
  void cutOff_isBoundedAsItSays(@ForAll("small") SmallWorld world) {
    PlanComparison whole = compared(world, new ComparisonLimits(100_000, 0, 1));
    PlanComparison cut = compared(world, new ComparisonLimits(2, 0, 1));

    for (Row row : cut.rows()) {
      double exact = whole.row(row.way()).expectedCost();
      assertThat(row.pBeyond()).isBetween(0.0, 1 + 1e-9);
      assertThat(exact)
          .as("" + row.way())
          .isBetween(
              row.expectedCost() - row.less() - CLOSE, row.expectedCost() + row.more() + CLOSE);
      Statistics.label(row.way() + " cut off").collect(row.pBeyond() > 0);
    }
  }

  @Property(tries = 60)
  void noPolicyDoesWhatIsNotOpen_andEveryBranchEnds(
      @ForAll("small") SmallWorld world, @ForAll long seed) {
    Permissions some = someOf(world, new SplittableRandom(seed));
    Planner planner = Planner.of(DeviceModel.of(world.pack()), world.shop());
    Plan plan = planner.plan(world.worlds(), world.now(), Bench.INTAKE, some, PlanLimits.EXACT);
    Place start = Place.beginning(planner, Bench.INTAKE, some, world.worlds(), world.now());

    for (Way way : Way.values()) {
      PolicyTree tree = PolicyTree.of(start, Comparing.policy(way, plan), 100_000);
      isAllowed(world.pack(), some, tree.root().written(), world.now());
    }
  }

  /** Some steps are held for good, some until another has been done. */
  private static Permissions someOf(SmallWorld world, SplittableRandom random) {
    Permissions some = Bench.everything(world.pack());
    List<StepId> steps = List.copyOf(world.pack().steps().keySet());
    for (StepId step : steps) {
      if (step.value().equals(SmallWorld.FUNCTION_TEST)) {
        continue;
      }
      StepId other = steps.get(random.nextInt(steps.size()));
      some =
          switch (random.nextInt(4)) {
            case 0 -> Bench.without(some, step.value());
            case 1 -> Bench.with(some, step.value(), new Condition.Done(other));
            case 2 -> Bench.with(some, step.value(), new Condition.Not(new Condition.Done(other)));
            default -> some;
          };
    }
    return some;
  }

  private static void isAllowed(Pack pack, Permissions some, PlanNode node, Situation before) {
    if (node instanceof PlanNode.DoTest test) {
      Situation then = done(pack, some, test.step(), before, test.turns());
      test.branches().forEach(b -> isAllowed(pack, some, b.then(), then));
    } else if (node instanceof PlanNode.DoRepair repair) {
      assertThat(before.done()).doesNotContain(repair.step());
      Situation then = done(pack, some, repair.step(), before, repair.turns());
      for (StepId proof : repair.proofs()) {
        then = then.withDone(proof);
      }
      isAllowed(pack, some, repair.ifPassed(), then);
      isAllowed(pack, some, repair.ifFailed(), then);
    } else {
      assertThat(node).isInstanceOf(PlanNode.End.class);
    }
  }

  /** The bench as turned is not followed here; what steps need of it is looked at elsewhere. */
  private static Situation done(
      Pack pack, Permissions some, StepId step, Situation before, List<BenchState> turns) {
    assertThat(some.steps()).containsKey(step);
    assertThat(some.steps().get(step).holdsIn(before)).as(step + " is open").isTrue();
    assertThat(turns).allMatch(some.turns()::containsKey);
    return before.withDone(step);
  }

  @Property(tries = 40)
  void quote_isTheQuantileOfThePrice(@ForAll("small") SmallWorld world) {
    Plan plan = compared(world, ComparisonLimits.ORDINARY).plan().course();
    Quote quote = Quote.of(plan, world.pack(), OptionalDouble.of(20));
    TreeMap<Double, Double> prices = new TreeMap<>();
    price(plan.root(), world.shop(), 1, 0, prices);

    assertThat(quote.half()).isEqualTo(quantile(prices, 0.5), within(CLOSE));
    assertThat(quote.nineInTen()).isEqualTo(quantile(prices, 0.9), within(CLOSE));
    assertThat(plan.price(0.5).orElseThrow()).isEqualTo(quote.half(), within(CLOSE));
    assertThat(plan.price(0.9).orElseThrow()).isEqualTo(quote.nineInTen(), within(CLOSE));
    double above = prices.tailMap(20 + 1e-9, true).values().stream().mapToDouble(p -> p).sum();
    assertThat(quote.pAboveCeiling()).isEqualTo(above, within(1e-9));
  }

  /** By each way to an end: its probability and its price, step by step. */
  private static void price(
      PlanNode node, Shop shop, double p, double before, TreeMap<Double, Double> prices) {
    if (node instanceof PlanNode.DoTest test) {
      double now = before + test.spend().price(shop);
      test.branches().forEach(b -> price(b.then(), shop, p * b.p(), now, prices));
    } else if (node instanceof PlanNode.DoRepair repair) {
      double now = before + repair.spend().price(shop);
      price(repair.ifPassed(), shop, p * repair.pPass(), now, prices);
      price(repair.ifFailed(), shop, p * (1 - repair.pPass()), now, prices);
    } else {
      prices.merge(before + ((PlanNode.End) node).spend().price(shop), p, Double::sum);
    }
  }

  /** The least price that is not exceeded with this probability. */
  private static double quantile(TreeMap<Double, Double> prices, double p) {
    double sum = 0;
    for (Map.Entry<Double, Double> e : prices.entrySet()) {
      sum += e.getValue();
      if (sum >= p - 1e-9) {
        return e.getKey();
      }
    }
    throw new AssertionError("probabilities must sum to 1: " + sum);
  }

  @Property(tries = 20)
  void simulation_agreesWithTheExpectation(@ForAll("small") SmallWorld world) {
    PlanComparison compared = compared(world, new ComparisonLimits(30, 4000, 7));
    for (Row row : compared.rows()) {
      Simulated s = row.simulated().orElseThrow();
      assertThat(s.cost())
          .as("" + row.way())
          .isEqualTo(row.expectedCost(), within(4 * s.costError() + CLOSE));
    }
  }
}
