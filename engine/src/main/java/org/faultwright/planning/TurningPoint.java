package org.faultwright.planning;

import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Intake;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.planning.PlanNode.Ending;
import org.faultwright.planning.RepairOrNot.Turning;

/**
 * Finds the value of a device from which on a repair is worth trying.
 *
 * <p>Ending a job without a repair costs f, closing apart: the fee of sending on, or what is lost
 * with the device, whichever is less. A policy costs {@code a + b f}, with b the probability that
 * it ends so; returning at once costs {@code close + f}. So the policy is worth trying where f is
 * above {@code (a - close)/(1 - b)}, and the turning point is the least such ratio of any policy.
 * Starting from the fee of sending on, the plan made at one f gives the next, until none is cheaper
 * than returning (W. Dinkelbach, On nonlinear fractional programming, Management Science 13, 1967,
 * 492-498); with exact plans that is exact after finitely many, since V* is piecewise linear in f.
 */
final class TurningPoint {

  /** Ratios that differ by less than this part are the same. */
  private static final double SAME = 1e-9;

  /** The same for plans of which it is not known that they are the best. */
  private static final double CLOSE = 0.01;

  /** Plans at most; each but the last lowers the ratio. */
  private static final int MOST_PLANS = 12;

  private final Place start;
  private final LikelyWorlds worlds;
  private final PlanLimits limits;
  private final Shop shop;
  private final Intake intake;
  private final double close;

  TurningPoint(Place start, LikelyWorlds worlds, PlanLimits limits) {
    this.start = start;
    this.worlds = worlds;
    this.limits = limits;
    this.shop = start.job.planner().shop();
    this.intake = start.job.intake();
    this.close = start.costs().close(start.bench);
  }

  Optional<RepairOrNot> find(Plan plan) {
    if (start.nothingLost()) {
      return Optional.empty();
    }
    Plan followed = followed(intake, plan);
    OptionalDouble value = intake.deviceValue();
    OptionalDouble returned =
        value.isPresent() ? OptionalDouble.of(close + lost(value.getAsDouble())) : value;
    Quote quote = Quote.of(followed, start.model().device.pack(), intake.ceiling());
    return Optional.of(
        new RepairOrNot(turning(followed), value, followed.expectedCost(), returned, quote));
  }

  private double lost(double deviceValue) {
    return Math.max(0, deviceValue - shop.salvage()) + intake.dataValue().orElse(0);
  }

  private Turning turning(Plan stated) {
    double fee = shop.sendOnFee();
    double f = Math.min(fee, ratio(stated, start.costs().exitFee()));
    boolean isExact = false;
    for (int n = 0; n < MOST_PLANS; n++) {
      Intake there =
          intake
              .withDeviceValue(OptionalDouble.of(shop.salvage() + f))
              .withDataValue(OptionalDouble.empty());
      Plan plan =
          start.job.planner().plan(worlds, start.now, there, start.job.permissions(), limits);
      isExact = plan.isOptimal();
      double next = ratio(followed(there, plan), f);
      if (next >= f - (isExact ? SAME : CLOSE) * f) {
        break;
      }
      f = next;
    }
    double data = intake.dataValue().orElse(0);
    if (f >= fee) {
      return new Turning.Never(Math.max(0, shop.salvage() + fee - data), isExact);
    }
    return f <= data ? new Turning.Always() : new Turning.From(shop.salvage() + f - data, isExact);
  }

  /**
   * From which cost of ending the job on a plan is worth trying; infinite where it always ends it.
   *
   * @param f the cost of ending the job that the plan is priced with
   */
  private double ratio(Plan followed, double f) {
    double b = 1 - followed.endings().get(Ending.REPAIRED);
    return 1 - b <= SAME
        ? Double.POSITIVE_INFINITY
        : Math.max(0, (followed.expectedCost() - b * f - close) / (1 - b));
  }

  /** A plan with every branch followed to its end. */
  private Plan followed(Intake there, Plan plan) {
    Place here =
        Place.beginning(start.job.planner(), there, start.job.permissions(), worlds, start.now);
    PolicyTree tree =
        PolicyTree.of(here, new Planned(plan.root()), ComparisonLimits.ORDINARY.mostPlaces());
    return new Plan(
        tree.root().written(), shop, plan.atLeast(), plan.stepsAhead(), plan.pLeftOut());
  }
}
