package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
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
