package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.pack.Condition;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;

/** Worths in small worlds in which one test opens another, and that one a repair. */
class FollowUpProperty {

  private static final double CLOSE = 1e-9;

  /** A small world and what opens what. */
  record Guarded(SmallWorld world, Map<StepId, StepId> openedBy) {

    Permissions permissions() {
      Permissions all = Bench.everything(world.pack());
      for (Map.Entry<StepId, StepId> e : openedBy.entrySet()) {
        all =
            Bench.with(
                all, e.getKey().value(), new Condition.OutcomeIs(e.getValue(), OutcomeId.POSITIVE));
      }
      return all;
    }

    Planner planner() {
      return Planner.of(DeviceModel.of(world.pack()), world.shop());
    }

    Weighing look() {
      return planner().look(world.worlds(), world.now(), Bench.INTAKE, permissions());
    }

    Step step(Worth worth) {
      return world.pack().steps().get(worth.step());
    }
  }

  @Provide
  Arbitrary<Guarded> guarded() {
    return draw(4);
  }

  @Provide
  Arbitrary<Guarded> smaller() {
    return draw(2);
  }

  private static Arbitrary<Guarded> draw(int mostRepairs) {
    return Arbitraries.randomValue(
        random -> {
          SplittableRandom own = new SplittableRandom(random.nextLong());
          SmallWorld world = SmallWorld.draw(own, mostRepairs);
          while (!world.pack().steps().containsKey(new StepId("test-2"))) {
            world = SmallWorld.draw(own, mostRepairs);
          }
          Map<StepId, StepId> openedBy = new LinkedHashMap<>();
          openedBy.put(new StepId("test-2"), new StepId("test-1"));
          if (own.nextInt(4) > 0) {
            openedBy.put(new StepId("repair-1"), new StepId("test-2"));
          }
          if (own.nextInt(4) == 0) {
            openedBy.put(new StepId("repair-2"), new StepId("test-1"));
          }
          if (own.nextInt(4) == 0) {
            openedBy.put(new StepId("test-3"), new StepId("test-" + own.nextInt(1, 3)));
          }
          openedBy.keySet().retainAll(world.pack().steps().keySet());
          return new Guarded(world, openedBy);
        });
  }

  @Property(tries = 500)
  void worth_isThatOfTheBestTestToFollow_triedOneByOne(@ForAll("guarded") Guarded g) {
    BruteForce oracle = new BruteForce(g.world, g.openedBy);
    Weighing weighing = g.look();

    assertThat(weighing.costWithoutTests()).isEqualTo(oracle.ecr0(), within(CLOSE));
    double most = Double.NEGATIVE_INFINITY;
    for (Worth worth : weighing.tests()) {
      most = Math.max(most, oracle.worth(g.step(worth)));
    }
    Assume.that(Math.abs(most - 0.01 * oracle.ecr0()) > CLOSE);
    boolean isLittle = most < 0.01 * oracle.ecr0();
    for (Worth worth : weighing.tests()) {
      double expected = oracle.worth(g.step(worth), isLittle);
      if (worth.atMost()) {
        assertThat(worth.worth()).isLessThanOrEqualTo(0);
        assertThat(expected).isLessThanOrEqualTo(worth.worth() + CLOSE);
      } else if (worth.branches().isEmpty()) {
        assertThat(worth.worth()).as("it tells nothing").isEqualTo(-worth.cost());
      } else {
        assertThat(worth.worth())
            .isEqualTo(expected, within(CLOSE))
            .isGreaterThanOrEqualTo(oracle.worth(g.step(worth)) - CLOSE);
        double after = 0;
        for (Worth.Branch b : worth.branches()) {
          after += b.p() * b.expectedCost();
        }
        assertThat(weighing.costWithoutTests() - worth.cost() - after)
            .isEqualTo(worth.worth(), within(CLOSE));
        assertThat(worth.toTheEnd().orElseThrow().cost(g.world.shop()))
            .isEqualTo(weighing.costWithoutTests() - worth.worth(), within(CLOSE));
      }
    }
  }

  /**
   * V* may do all that the worth counts on, and more; function tests apart, which it takes as read.
   */
  @Property(tries = 100)
  void worth_isNeverMoreThanTheWholePlanSaves(@ForAll("smaller") Guarded g) {
    Weighing weighing = g.look();
    Plan plan =
        g.planner()
            .plan(g.world.worlds(), g.world.now(), Bench.INTAKE, g.permissions(), PlanLimits.EXACT);

    for (Worth worth : weighing.tests()) {
      if (g.step(worth).proves().isEmpty() && !worth.branches().isEmpty()) {
        assertThat(weighing.costWithoutTests() - worth.worth())
            .isGreaterThanOrEqualTo(plan.atLeast() - CLOSE);
      }
    }
  }

  @Property(tries = 200)
  void aTestIsNamedToFollow_onlyWhereTheOneBeforeOpensIt(@ForAll("guarded") Guarded g) {
    for (Worth worth : g.look().tests()) {
      for (Worth.Branch b : worth.branches()) {
        Optional<StepId> opener = b.thenTest().map(g.openedBy::get);
        assertThat(opener.orElse(worth.step())).isEqualTo(worth.step());
        assertThat(b.thenTest().isPresent() && b.thenRepair().isPresent()).isFalse();
      }
    }
  }
}
