package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.StepId;
import org.faultwright.planning.CaseModel.Showing;
import org.faultwright.planning.OpenSteps.Test;
import org.faultwright.planning.RepairSearch.Found;
import org.faultwright.planning.RepairTree.Belief;

/** One look at a case: belief, costs and permissions are given, and what to do next is weighed. */
final class Assessment {

  /** A part of ECR0 that a test is worth little for: then the tests are weighed two ahead. */
  private static final double LITTLE = 0.01;

  private final CaseModel model;
  private final DeviceModel device;
  private final Costs costs;
  private final Permissions permissions;
  private final Situation now;
  private final int bench;
  private final Futures futures;
  private final Futures.Future present;
  private final Showing[] showings;
  private final double[] p;
  private final double pLeftOut;
  private final WorldMasses masses;
  private final OpenSteps open;

  private RepairSearch search;
  private int[] repairs = {};

  /** A case as it stands. */
  Assessment(
      CaseModel model, Costs costs, LikelyWorlds worlds, Situation now, Permissions permissions) {
    this(
        model,
        costs,
        showings(model, worlds),
        Arrays.stream(worlds.p()).map(p -> p / (1 - worlds.pLeftOut())).toArray(),
        worlds.pLeftOut(),
        now,
        permissions);
  }

  /** A case as it is or may come to be. */
  Assessment(
      CaseModel model,
      Costs costs,
      Showing[] showings,
      double[] p,
      double pLeftOut,
      Situation now,
      Permissions permissions) {
    this.model = model;
    this.device = model.device;
    this.costs = costs;
    this.permissions = permissions;
    this.now = now;
    this.showings = showings;
    this.p = p;
    this.pLeftOut = pLeftOut;
    bench = costs.ways.state(now.on());
    futures = new Futures(model, costs, permissions, now);
    present = futures.present();
    masses = new WorldMasses(model, showings, p);
    open = new OpenSteps(model, costs, now, futures, masses);
  }

  private static Showing[] showings(CaseModel model, LikelyWorlds worlds) {
    Showing[] showings = new Showing[worlds.size()];
    int[] places = model.device.places(worlds.coordinates());
    for (int w = 0; w < showings.length; w++) {
      showings[w] = model.showing(model.device.world(places, worlds.bits()[w]));
    }
    return showings;
  }

  /** No function is known to be lost: the device can be handed over. */
  Weighing handOver() {
    settleRepairs(List.of());
    double pLost = pLost();
    double cost = costs.close(bench) + pLost * costs.comeback;
    return new Weighing(
        new NextStep.HandOver(cost),
        cost,
        costs.spendOfClosing(bench).plus(new Spend(0, 0, 0, pLost * costs.comeback)),
        cost,
        costs.exit(bench),
        costs.spendOfExit(bench),
        List.of(),
        List.of(),
        pLost,
        pLeftOut,
        Optional.empty());
  }

  /**
   * Weighs repairs, tests and the end of the job.
   *
   * @param also repairs to weigh even where there are more than are planned with
   */
  Weighing weigh(List<StepId> also) {
    settleRepairs(open.chooseRepairs(Set.of()));
    List<RepairWay> ways = weighRepairs();
    Exit exit = costs.exit(bench);
    RepairWay cheapest = null;
    double without = exit.cost();
    Spend toTheEnd = costs.spendOfExit(bench);
    for (RepairWay way : ways) {
      if (isLess(way.expectedCost(), without)) {
        cheapest = way;
        without = way.expectedCost();
        toTheEnd = way.toTheEnd();
      }
    }
    List<Worth> worths = weighTests(without, toTheEnd);
    Worth best = null;
    for (Worth worth : worths) {
      boolean isPositive = isLess(0, worth.worth(), without + worth.cost());
      if (isPositive && (best == null || isLess(best.worth(), worth.worth(), without))) {
        best = worth;
      }
    }
    NextStep next =
        best != null
            ? new NextStep.DoTest(best)
            : cheapest != null ? new NextStep.DoRepair(cheapest) : new NextStep.Leave(exit);
    ways.addAll(weighApart(also));
    ways.sort(Comparator.comparingDouble(RepairWay::expectedCost));
    worths.sort(Comparator.comparingDouble(w -> -w.worth()));
    return new Weighing(
        next,
        best == null ? without : without - best.worth(),
        best == null ? toTheEnd : best.toTheEnd().orElseThrow(),
        without,
        exit,
        costs.spendOfExit(bench),
        ways,
        worths,
        pLost(),
        pLeftOut,
        Optional.empty());
  }

  /** What each test is worth; two tests ahead only where none is worth much by itself. */
  private List<Worth> weighTests(double without, Spend toTheEnd) {
    List<Integer> planned = Arrays.stream(repairs).boxed().toList();
    FollowUps followUps = new FollowUps(model, costs, futures, open, planned, search);
    TestWeighing weighing =
        new TestWeighing(model, costs, bench, futures, masses, search, followUps);
    List<Worth> worths = new ArrayList<>();
    boolean isOneWorthMuch = false;
    for (Test test : open.tests()) {
      Worth worth = weighing.weigh(test, without, toTheEnd);
      worths.add(worth);
      isOneWorthMuch |= worth.worth() > LITTLE * without;
    }
    for (int t = 0; t < worths.size() && !isOneWorthMuch; t++) {
      Optional<Worth> followed = weighing.weighFollowed(open.tests().get(t), without, toTheEnd);
      worths.set(t, followed.orElse(worths.get(t)));
    }
    return worths;
  }

  private static boolean isLess(double a, double b) {
    return isLess(a, b, b);
  }

  private static boolean isLess(double a, double b, double scale) {
    return a < b - RepairSearch.ROUNDING * Math.abs(scale);
  }

  private double pLost() {
    Belief belief = search.start();
    masses.fill(belief);
    return Math.min(1, model.tree.lost(belief));
  }

  // What a whole plan asks for.

  /** A test that could be done now and whose outcome is not known. */
  record Testing(int step, Sight sight, double cost, int bench) {}

  /**
   * A repair that could be done now.
   *
   * @param proofs the function tests after it
   * @param cost with function tests, and what both need of the bench
   * @param bench after it
   */
  record Repairing(int step, int[] proofs, double cost, int bench) {}

  /** The repairs that cure something which is not negligible now. */
  Set<Integer> relevantRepairs() {
    return open.relevantRepairs();
  }

  /**
   * Finds the tests and repairs there are.
   *
   * @param repairs those that cured something at the beginning of the plan: only they are counted
   */
  Assessment settled(Set<Integer> repairs) {
    open.keepTo(repairs);
    settleRepairs(open.chooseRepairs(Set.of()));
    return this;
  }

  /** The tests that could be done now and whose outcome is not known. */
  List<Testing> openTests() {
    return open.tests().stream()
        .filter(t -> t.before().isEmpty())
        .map(t -> new Testing(t.step(), t.sight(), t.cost(), t.bench()))
        .toList();
  }

  /** A repair, where it could be done now. */
  Optional<Repairing> repairing(int step) {
    return open.repairing(step);
  }

  /** The least cost without tests, and the first repair of the sequence; -1: to end the job. */
  Ecr0 ecr0() {
    return ecr0(showings, p);
  }

  /** The same for other worlds, where {@link #leavesRepairsOut} does not. */
  Ecr0 ecr0(Showing[] worlds, double[] pOfWorlds) {
    masses.fill(search.start(), worlds, pOfWorlds);
    Found found = search.cheapest(bench, present);
    return new Ecr0(found.cost(), Arrays.stream(found.plan()).map(r -> repairs[r]).toArray());
  }

  /** Whether there are more repairs than are planned with, so that the worlds decide on which. */
  boolean leavesRepairsOut() {
    return open.leavesRepairsOut();
  }

  /** ECR0 alone: what {@link #weigh} says of it, with no test or single repair weighed. */
  double costWithoutTests() {
    settleRepairs(open.chooseRepairs(Set.of()));
    return ecr0().cost();
  }

  /** What {@link #ecr0} finds. */
  record Ecr0(double cost, int[] steps) {}

  private void settleRepairs(List<Integer> repairs) {
    this.repairs = repairs.stream().mapToInt(Integer::intValue).toArray();
    search = model.search(costs, repairs);
    futures.settle(this.repairs);
  }

  // Repairs.

  private List<RepairWay> weighRepairs() {
    List<RepairWay> ways = new ArrayList<>();
    for (int r = 0; r < repairs.length; r++) {
      weighRepair(r).ifPresent(ways::add);
    }
    return ways;
  }

  /** Repairs that are not among those planned with, each in the place of the least of these. */
  private List<RepairWay> weighApart(List<StepId> also) {
    List<RepairWay> ways = new ArrayList<>();
    for (StepId id : also) {
      int s = device.number(id);
      if (Arrays.binarySearch(repairs, s) >= 0) {
        continue;
      }
      Assessment apart = new Assessment(model, costs, showings, p, pLeftOut, now, permissions);
      apart.settleRepairs(apart.open.chooseRepairs(Set.of(s)));
      int r = Arrays.binarySearch(apart.repairs, s);
      if (r >= 0) {
        apart.weighRepair(r).ifPresent(ways::add);
      }
    }
    return ways;
  }

  private Optional<RepairWay> weighRepair(int r) {
    masses.fill(search.start());
    Found found = search.cheapestFrom(r, bench, present);
    if (Double.isInfinite(found.cost())) {
      return Optional.empty();
    }
    int ready = costs.benchFor(bench, repairs[r]);
    List<StepId> proofs = new ArrayList<>();
    for (int proof : present.proofs(r, 1 << r, ready)) {
      int step = model.proofs.get(proof).step();
      if (step >= 0) {
        proofs.add(device.steps.get(step).id());
      }
    }
    List<StepId> sequence = Arrays.stream(found.plan()).mapToObj(this::repairAt).toList();
    return Optional.of(
        new RepairWay(
            repairAt(r),
            proofs,
            found.cost(),
            search.spend(found.plan(), bench, present),
            search.costOfFirst(),
            Math.min(1, search.passedFirst()),
            sequence));
  }

  private StepId repairAt(int r) {
    return device.steps.get(repairs[r]).id();
  }
}
