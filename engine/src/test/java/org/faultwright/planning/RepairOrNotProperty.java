package org.faultwright.planning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import java.util.SplittableRandom;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import org.faultwright.casefile.Intake;
import org.faultwright.planning.RepairOrNot.Turning;
import org.faultwright.planning.RepairOrNot.Verdict;

/** Where it turns whether a repair is worth it, against every policy tried. */
class RepairOrNotProperty {

  /** Sums of some thousand products of numbers below 1000. */
  private static final double CLOSE = 1e-7;

  /** How far beside the turning point to look. */
  private static final double ASIDE = 1e-4;

  private static final double SALVAGE = 7;

  @Provide
  Arbitrary<SmallWorld> small() {
    return Arbitraries.randomValue(
        random -> SmallWorld.draw(new SplittableRandom(random.nextLong()), 2));
  }

  private static RepairOrNot asked(SmallWorld world, Intake intake) {
    Shop s = world.shop();
    Shop shop =
        new Shop(
            s.rate(),
            s.waitRate(),
            s.sendOnFee(),
            SALVAGE,
            s.comeback(),
            s.partPrice(),
            s.partPrices(),
            s.proof());
    Planner planner = Planner.of(DeviceModel.of(world.pack()), shop);
    Permissions all = Bench.everything(world.pack());
    Plan plan = planner.plan(world.worlds(), world.now(), intake, all, PlanLimits.EXACT);
    return planner
        .repairOrNot(world.worlds(), world.now(), intake, all, plan, PlanLimits.EXACT)
        .orElseThrow();
  }

  /** V* where ending the job costs so much, closing apart. */
  private static double optimum(SmallWorld world, double exit) {
    Shop s = world.shop();
    return new EveryPolicy(world.with(Bench.with(exit, s.comeback(), s.proof()))).optimum();
  }

  @Property(tries = 60)
  void belowTheTurningPointNothingPays_aboveItSomethingDoes(@ForAll("small") SmallWorld world) {
    RepairOrNot asked = asked(world, Bench.INTAKE);
    double fee = world.shop().sendOnFee();

    Statistics.label("turning").collect(asked.turning().getClass().getSimpleName());
    assertThat(asked.verdict())
        .isIn(Verdict.NOT_STATED, Verdict.REPAIR); // whatever the device is worth
    if (asked.turning() instanceof Turning.From from) {
      assertThat(from.isExact()).isTrue();
      double exit = from.deviceValue() - SALVAGE;
      assertThat(exit).isBetween(0.0, fee);
      double below = exit * (1 - ASIDE);
      assertThat(optimum(world, below)).isEqualTo(below, within(CLOSE));
      double above = Math.min(fee, exit * (1 + ASIDE));
      assertThat(optimum(world, above)).isLessThan(above + CLOSE);
      assertThat(optimum(world, fee)).isLessThan(fee);
    } else if (asked.turning() instanceof Turning.Never never) {
      assertThat(never.isExact()).isTrue();
      assertThat(optimum(world, fee)).isEqualTo(fee, within(CLOSE));
      assertThat(never.sendOnFrom()).isEqualTo(fee + SALVAGE, within(CLOSE));
    } else {
      assertThat(optimum(world, 1e-3)).isLessThan(1e-3);
    }
  }

  @Property(tries = 60)
  void verdictAtAStatedValue_isThatOfTheOptimumThere(@ForAll("small") SmallWorld world) {
    for (double value : new double[] {SALVAGE + 2, SALVAGE + 20, SALVAGE + 500}) {
      RepairOrNot asked = asked(world, Bench.worth(value));
      double exit = Math.min(world.shop().sendOnFee(), value - SALVAGE);
      double optimum = optimum(world, exit);

      assertThat(asked.expectedCost()).isEqualTo(optimum, within(CLOSE));
      assertThat(asked.returnedAtOnce().orElseThrow()).isEqualTo(value - SALVAGE, within(CLOSE));
      boolean pays = optimum < exit - CLOSE;
      Verdict otherwise =
          value - SALVAGE > world.shop().sendOnFee() ? Verdict.SEND_ON : Verdict.RETURN;
      assertThat(asked.verdict()).isEqualTo(pays ? Verdict.REPAIR : otherwise);
    }
  }

  @Property(tries = 30)
  void dataOnTheDevice_moveTheTurningPointDownByTheirWorth(@ForAll("small") SmallWorld world) {
    Turning without = asked(world, Bench.INTAKE).turning();
    double data = 5;
    Turning with = asked(world, Bench.INTAKE.withDataValue(OptionalDouble.of(data))).turning();

    if (without instanceof Turning.From from && from.deviceValue() - SALVAGE > data + CLOSE) {
      assertThat(((Turning.From) with).deviceValue())
          .isEqualTo(from.deviceValue() - data, within(CLOSE));
    } else if (without instanceof Turning.Never) {
      assertThat(with).isInstanceOf(Turning.Never.class);
    } else {
      assertThat(with).isInstanceOf(Turning.Always.class);
    }
  }
}
