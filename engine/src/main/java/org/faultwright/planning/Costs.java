package org.faultwright.planning;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Intake;
import org.faultwright.pack.Harm;
import org.faultwright.pack.Step;

/** What steps, ways and endings cost in one case, in the shop's currency. */
final class Costs {

  final BenchWays ways;
  private final DeviceModel device;
  private final Shop shop;
  private final BenchWays allWays;
  private final double[] ofStep;
  private final int[] goals;
  private final int[] closing;
  private final Map<Integer, Double> leastClose = new HashMap<>();
  private final Map<Long, Boolean> surely = new HashMap<>();
  private final Map<Long, Spend> spendOfWay = new HashMap<>();
  private final double exitFee;
  private final Exit.Kind exitKind;
  final double comeback;
  final double proofCost;

  /**
   * Costs of a case.
   *
   * @param ways the ways that are permitted
   * @param allWays the ways that the switches offer; used to close up where no permitted way does
   */
  Costs(DeviceModel device, Shop shop, Intake intake, BenchWays ways, BenchWays allWays) {
    this.device = device;
    this.shop = shop;
    this.ways = ways;
    this.allWays = allWays;
    ofStep = new double[device.steps.size()];
    goals = new int[ofStep.length];
    closing = new int[ofStep.length];
    for (int s = 0; s < ofStep.length; s++) {
      Step step = device.steps.get(s);
      ofStep[s] = ofStep(device, shop, step);
      goals[s] = ways.goalId(step.conditions().bench());
      closing[s] = allWays.goalId(step.conditions().bench());
    }
    comeback = shop.comeback();
    proofCost = shop.rate() * shop.proof().minutes();
    // not cut down to the ceiling: the customer can be asked to go above it
    OptionalDouble worth = intake.deviceValue();
    double loss =
        worth.isPresent()
            ? Math.max(0, worth.getAsDouble() - shop.salvage()) + intake.dataValue().orElse(0)
            : Double.POSITIVE_INFINITY;
    exitKind = loss < shop.sendOnFee() ? Exit.Kind.RETURN : Exit.Kind.SEND_ON;
    exitFee = Math.min(loss, shop.sendOnFee());
  }

  static double ofStep(DeviceModel device, Shop shop, Step step) {
    double cost = BenchWays.cost(shop, step.effort()) + step.consumables();
    for (Harm harm : step.mayCause()) {
      cost += harm.chance().p() * harm.cost();
    }
    return step.swap().isPresent()
        ? cost + shop.priceOf(device.pack().parts().get(step.swap().get().part()))
        : cost;
  }

  /** A step with the bench ready for it. */
  double ofStep(int step) {
    return ofStep[step];
  }

  /** Getting the bench ready for a step; infinite where it cannot be. */
  double ofWay(int bench, int step) {
    return ways.cost(bench, goals[step]);
  }

  /** The bench when it has been got ready for a step; -1 where it cannot be. */
  int benchFor(int bench, int step) {
    return ways.after(bench, goals[step]);
  }

  int goal(int step) {
    return goals[step];
  }

  /** Whether the bench can be got ready for a step from wherever it can be brought to. */
  boolean leadsSurely(int bench, int step) {
    return surely.computeIfAbsent(
        (long) bench << 32 | step, k -> ways.leadsSurely(bench, goals[step]));
  }

  /** Closing the device; where no permitted way does, what it costs once all turns are. */
  double close(int bench) {
    double cost = ways.cost(bench, BenchWays.CLOSED);
    cost = Double.isInfinite(cost) ? allWays.cost(bench, BenchWays.CLOSED) : cost;
    return Double.isInfinite(cost) ? 0 : cost;
  }

  /** What closing costs, at least: as if every turn of a switch were permitted. Or infinite. */
  double leastCloseFrom(int bench) {
    return allWays.cost(bench, BenchWays.CLOSED);
  }

  /** The way that {@link #close} prices; empty where there is none at all. */
  Optional<Route.Way> wayToClose(int bench) {
    Route permitted = ways.way(bench, BenchWays.CLOSED);
    Route route = permitted instanceof Route.Way ? permitted : allWays.way(bench, BenchWays.CLOSED);
    return route instanceof Route.Way way ? Optional.of(way) : Optional.empty();
  }

  /** The least that closing costs from any state of the bench that is ready for a step. */
  double leastClose(int step) {
    return leastClose.computeIfAbsent(step, s -> allWays.leastCost(closing[s], BenchWays.CLOSED));
  }

  /** Ending the job without a repair, apart from closing. */
  double exitFee() {
    return exitFee;
  }

  Exit exit(int bench) {
    return new Exit(exitKind, exitFee + close(bench));
  }

  // The same costs, kept apart.

  /** What a step takes with the bench ready for it. */
  Spend spendOfStep(int number) {
    Step step = device.steps.get(number);
    double risk = 0;
    for (Harm harm : step.mayCause()) {
      risk += harm.chance().p() * harm.cost();
    }
    double parts =
        step.swap().map(s -> shop.priceOf(device.pack().parts().get(s.part()))).orElse(0.0);
    return new Spend(
        step.effort().handsMinutes(),
        step.effort().waitMinutes(),
        step.consumables() + parts,
        risk);
  }

  /** What getting the bench ready for a step takes that it can be got ready for. */
  Spend spendOfWay(int bench, int step) {
    return spendOfWay.computeIfAbsent((long) bench << 32 | step, k -> spend(way(bench, step)));
  }

  /** The way that {@link #spendOfWay} is of. */
  Route.Way way(int bench, int step) {
    return (Route.Way) ways.way(bench, goals[step]);
  }

  /** What {@link #close} takes. */
  Spend spendOfClosing(int bench) {
    return wayToClose(bench).map(Costs::spend).orElse(Spend.NOTHING);
  }

  /** What ending the job without a repair takes, closing up included. */
  Spend spendOfExit(int bench) {
    return spendOfClosing(bench).plus(new Spend(0, 0, exitFee, 0));
  }

  /** What the function test takes that is assumed where the pack has none. */
  Spend spendOfProof() {
    return new Spend(shop.proof().minutes(), 0, 0, 0);
  }

  private static Spend spend(Route.Way way) {
    return new Spend(minutes(way.hands()), minutes(way.waiting()), way.consumables(), 0);
  }

  private static double minutes(Duration d) {
    return d.toNanos() / 6e10;
  }
}
