package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.Fact;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.oracle.BenchSimulator;
import org.faultwright.oracle.Device;
import org.faultwright.oracle.Facts;
import org.faultwright.oracle.Meter;
import org.faultwright.oracle.PackFeature;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanComparison.Way;

/**
 * What is expected of a plan and of rules of thumb, against jobs on a simulated bench that was
 * written from the semantics alone: devices are drawn as they are taken in, and those that are
 * reported are worked on as each policy says. What it finds is independent of worlds, weights and
 * branches; only the prices of steps are the plan's own, and are held to others elsewhere.
 */
class SimulatedBenchProperty {

  private static final int DEVICES = 1500;

  /** One in 16,000 by chance for one comparison. */
  private static final double MOST_ERRORS = 4;

  /** What the simulated bench and one report say alike. */
  private static final Set<PackFeature> FEATURES =
      EnumSet.complementOf(
          EnumSet.of(PackFeature.READINGS, PackFeature.REPEATABLE, PackFeature.COMPLAINTS));

  private static final Meter NONE =
      new Meter() {
        @Override
        public double trueValue(Point point, int state, SplittableRandom random) {
          throw new AssertionError("no readings are taken here");
        }

        @Override
        public ReadingValue read(Point point, double trueValue, SplittableRandom random) {
          throw new AssertionError("no readings are taken here");
        }
      };

  record Case(Pack pack, Shop shop, long seed) {}

  @Provide
  Arbitrary<Case> cases() {
    return Arbitraries.randomValue(
        random -> {
          SplittableRandom own = new SplittableRandom(random.nextLong());
          return new Case(
              PricedPacks.draw(own, FEATURES), PricedPacks.shop(own), random.nextLong());
        });
  }

  @Property(tries = 20)
  void jobsCostWhatIsExpected(@ForAll("cases") Case c) {
    List<Fact> facts = List.of(Facts.reported(PricedPacks.COMPLAINT.value()));
    CompiledPack compiled = (CompiledPack) CompiledPack.compile(c.pack);
    BeliefResult result = compiled.belief(Facts.told(facts));
    Assume.that(result instanceof Belief);
    LikelyWorlds worlds = ((Belief) result).worlds(1e-13, 1_000_000);
    Planner planner = Planner.of(DeviceModel.of(c.pack), c.shop);
    var now = Bench.reported(c.pack, PricedPacks.COMPLAINT.value());
    var all = Bench.everything(c.pack);
    PlanLimits limits = new PlanLimits(java.time.Duration.ofSeconds(1), 1, 1e-3, 8);
    Plan plan = planner.plan(worlds, now, Bench.INTAKE, all, limits);
    PlanComparison compared =
        planner.compare(worlds, now, Bench.INTAKE, all, plan, new ComparisonLimits(60, 0, 1));
    for (Way way : Way.values()) {
      Plan course = compared.row(way).course();
      double[] cost = new double[DEVICES];
      BenchSimulator simulator =
          new BenchSimulator(
              c.pack, stated(c.pack), NONE, new SplittableRandom(c.seed + way.ordinal()));
      for (int i = 0; i < DEVICES; i++) {
        cost[i] = job(c, course, reported(simulator));
      }
      double mean = java.util.Arrays.stream(cost).average().orElseThrow();
      double squares = java.util.Arrays.stream(cost).map(x -> (x - mean) * (x - mean)).sum();
      double error = Math.sqrt(squares / (DEVICES - 1) / DEVICES);
      assertThat(Math.abs(mean - course.expectedCost()))
          .as(way + ": " + mean + " where " + course.expectedCost() + " is expected")
          .isLessThanOrEqualTo(MOST_ERRORS * error + 1e-6);
    }
  }

  private static Map<CauseId, Double> stated(Pack pack) {
    Map<CauseId, Double> found = new LinkedHashMap<>();
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.Prior prior) {
        found.put(cause.id(), prior.chance().p());
      }
    }
    return found;
  }

  private static Device reported(BenchSimulator simulator) {
    for (int i = 0; i < 200_000; i++) {
      Device device = simulator.draw();
      if (device.reports(PricedPacks.COMPLAINT)) {
        return device;
      }
    }
    throw new AssertionError("too few devices are reported");
  }

  /** What one job costs; harm is in the price of its step, a comeback happens or does not. */
  private static double job(Case c, Plan course, Device device) {
    double cost = 0;
    PlanNode at = course.root();
    while (true) {
      if (at instanceof PlanNode.DoTest test) {
        cost += test.spend().cost(c.shop);
        OutcomeId seen = device.outcome(test.step());
        device.doStep(test.step());
        at =
            test.branches().stream()
                .filter(b -> b.seen().equals(new Seen.Shown(seen)))
                .findFirst()
                .orElseThrow()
                .then();
      } else if (at instanceof PlanNode.DoRepair repair) {
        cost += repair.spend().cost(c.shop);
        device.doStep(repair.step());
        boolean passed = true;
        for (StepId proof : repair.proofs()) {
          Step step = c.pack.steps().get(proof);
          passed &= device.outcome(proof).equals(PlanOracle.pass(step.shows().orElseThrow()));
          device.doStep(proof);
        }
        at = passed ? repair.ifPassed() : repair.ifFailed();
      } else {
        PlanNode.End end = (PlanNode.End) at;
        boolean isBack =
            end.ending() == PlanNode.Ending.REPAIRED && device.comesBack(PricedPacks.COMPLAINT);
        Optional<Double> comeback = isBack ? Optional.of(c.shop.comeback()) : Optional.empty();
        return cost + end.spend().price(c.shop) + comeback.orElse(0.0);
      }
    }
  }
}
