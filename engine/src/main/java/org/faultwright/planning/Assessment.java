package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.CaseModel.Prospect;
import org.faultwright.planning.CaseModel.Showing;
import org.faultwright.planning.RepairSearch.Found;
import org.faultwright.planning.RepairTable.Spread;
import org.faultwright.planning.RepairTree.Belief;

/** One look at a case: belief, costs and permissions are given, and what to do next is weighed. */
final class Assessment {

  /** Causes less likely than this call for no repair. */
  private static final double NEGLIGIBLE = 1e-6;

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

  private final List<Test> tests = new ArrayList<>();
  private int[] repairs = {};

  /** Repairs to plan with, whatever they cure now; empty: those that cure something now. */
  private Optional<Set<Integer>> inPlan = Optional.empty();

  private RepairSearch search;
  private double[] sums = new double[64];
  private int[] touched = new int[64];
  private int touchedCount;

  /** A test that could be done now. */
  private record Test(int step, Sight sight, Optional<Seen> before, double cost, int bench) {}

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
    findTests();
    settleRepairs(chooseRepairs(OptionalInt.empty()));
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
    List<Worth> worths = new ArrayList<>();
    Worth best = null;
    for (Test test : tests) {
      Worth worth = weigh(test, without, toTheEnd);
      worths.add(worth);
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

  private static boolean isLess(double a, double b) {
    return isLess(a, b, b);
  }

  private static boolean isLess(double a, double b, double scale) {
    return a < b - RepairSearch.ROUNDING * Math.abs(scale);
  }

  private double pLost() {
    Belief belief = search.start();
    fill(belief, null, 0);
    double sum = 0;
    for (int i = 0; i < belief.count; i++) {
      sum += belief.mass[i] * model.tree.lost(belief.rows[i]);
    }
    return Math.min(1, sum);
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
    double[] pPresent = pPresent();
    return Arrays.stream(model.repairs)
        .filter(s -> bearsOnLost(s, pPresent))
        .boxed()
        .collect(Collectors.toSet());
  }

  /**
   * Finds the tests and repairs there are.
   *
   * @param repairs those that cured something at the beginning of the plan: only they are counted
   */
  Assessment settled(Set<Integer> repairs) {
    // of several functions one may be back by now, and what bears on that one alone is done with
    inPlan =
        Optional.of(
            repairs.stream()
                .filter(s -> Arrays.binarySearch(model.repairs, s) >= 0)
                .collect(Collectors.toSet()));
    findTests();
    settleRepairs(chooseRepairs(OptionalInt.empty()));
    return this;
  }

  /** The tests that could be done now and whose outcome is not known. */
  List<Testing> openTests() {
    findTests();
    return tests.stream()
        .filter(t -> t.before.isEmpty())
        .map(t -> new Testing(t.step, t.sight, t.cost, t.bench))
        .toList();
  }

  /** A repair, where it could be done now. */
  Optional<Repairing> repairing(int step) {
    int ready = costs.benchFor(bench, step);
    boolean isDone = now.done().contains(device.steps.get(step).id());
    if (ready < 0 || isDone && !device.steps.get(step).repeatable()) {
      return Optional.empty();
    }
    futures.settle(new int[] {step});
    Futures.Future here = futures.present();
    if (!here.isOpen(0, 0, ready)) {
      return Optional.empty();
    }
    double cost = costs.ofStep(step) + costs.ofWay(bench, step);
    int[] proofs = here.proofs(0, 1, ready);
    int after = ready;
    for (int proof : proofs) {
      int test = model.proofs.get(proof).step();
      cost += test < 0 ? costs.proofCost : costs.ofStep(test) + costs.ofWay(after, test);
      after = test < 0 ? after : costs.benchFor(after, test);
    }
    return Optional.of(new Repairing(step, proofs, cost, after));
  }

  /** The least cost without tests, and the first repair of the sequence; -1: to end the job. */
  Ecr0 ecr0() {
    fill(search.start(), null, 0);
    Found found = search.cheapest(bench, present);
    return new Ecr0(found.cost(), found.plan().length == 0 ? -1 : repairs[found.plan()[0]]);
  }

  /** ECR0 alone: what {@link #weigh} says of it, with no test or single repair weighed. */
  double costWithoutTests() {
    findTests();
    settleRepairs(chooseRepairs(OptionalInt.empty()));
    return ecr0().cost();
  }

  /** What {@link #ecr0} finds. */
  record Ecr0(double cost, int first) {}

  // Which tests and repairs there are.

  private void findTests() {
    for (int s = 0; s < device.steps.size(); s++) {
      Step step = device.steps.get(s);
      if (device.sight(s).isEmpty() || !step.changes().isEmpty() || step.swap().isPresent()) {
        continue;
      }
      int ready = costs.benchFor(bench, s);
      if (ready < 0 || !present.allows(s, 0, ready)) {
        continue;
      }
      OutcomeId before = now.outcomes().get(step.id());
      boolean isRepeat =
          before != null
              || step.compares().filter(c -> isRead(c.point()) && isRead(c.with())).isPresent();
      boolean looks =
          step.shows().isPresent() && (!isRepeat || step.copies() < 1 && step.pinTable().isEmpty());
      Optional<Sight> sight = model.sight(s, looks, unread(step));
      if (sight.isPresent()) {
        Optional<Seen> seen =
            looks ? Optional.ofNullable(before).map(Seen.Shown::new) : Optional.empty();
        double cost = costs.ofStep(s) + costs.ofWay(bench, s);
        tests.add(new Test(s, sight.get(), seen, cost, ready));
      }
    }
  }

  private boolean isRead(PointId point) {
    return now.readings().containsKey(point);
  }

  private List<Point> unread(Step step) {
    List<Point> unread = new ArrayList<>();
    for (Point point : DeviceModel.points(step)) {
      boolean isThere =
          point.boards().isEmpty()
              || now.board().isEmpty()
              || point.boards().contains(now.board().get());
      if (isThere && !now.readings().containsKey(point.id())) {
        unread.add(point);
      }
    }
    return unread;
  }

  /**
   * The repairs to plan with: those that are open, or may come open by a test, and can cure a cause
   * that is not negligible and bears on a lost function. Of more than the search can take, those
   * with the most cure per cost.
   *
   * @param also one to plan with in any case
   */
  private List<Integer> chooseRepairs(OptionalInt also) {
    double[] pPresent = pPresent();
    List<Integer> found = new ArrayList<>();
    List<Integer> closed = new ArrayList<>();
    double[] promise = new double[device.steps.size()];
    for (int s = 0; s < device.steps.size(); s++) {
      Step step = device.steps.get(s);
      boolean isRepair =
          step.proves().isEmpty() && (!step.changes().isEmpty() || step.swap().isPresent());
      if (!isRepair
          || now.done().contains(step.id()) && !step.repeatable()
          || (inPlan.isPresent() ? !inPlan.get().contains(s) : !bearsOnLost(s, pPresent))) {
        continue;
      }
      int ready = costs.benchFor(bench, s);
      if (ready >= 0) {
        promise[s] = cures(s, pPresent) / Math.max(costs.ofStep(s) + costs.ofWay(bench, s), 1e-9);
        boolean isOpen = present.allows(s, 0, ready) || mayOpen(s, ready);
        (isOpen ? found : closed).add(s);
      }
    }
    List<Integer> open = List.copyOf(found);
    for (int s : closed) {
      if (futures.opensAfter(s, open, costs.benchFor(bench, s))) {
        found.add(s);
      }
    }
    found.sort(Comparator.naturalOrder());
    found.sort(Comparator.comparingDouble(s -> -promise[s]));
    also.ifPresent(s -> found.sort(Comparator.comparing(other -> other != s)));
    List<Integer> few =
        new ArrayList<>(found.subList(0, Math.min(found.size(), RepairSearch.MOST_REPAIRS)));
    few.sort(Comparator.naturalOrder());
    return few;
  }

  private double[] pPresent() {
    double[] pPresent = new double[model.logic.causeCount()];
    for (int w = 0; w < showings.length; w++) {
      for (int c : showings[w].present) {
        pPresent[c] += p[w];
      }
    }
    return pPresent;
  }

  private double cures(int repair, double[] pPresent) {
    int[] touched = device.effects[repair].touched;
    double cures = 0;
    for (int i = 0; i < touched.length; i++) {
      cures += pPresent[touched[i]] * device.effects[repair].pCures(i);
    }
    return cures;
  }

  private boolean bearsOnLost(int repair, double[] pPresent) {
    for (int c : device.effects[repair].touched) {
      if (model.bearsOnLost(c) && pPresent[c] > NEGLIGIBLE) {
        return true;
      }
    }
    return false;
  }

  private boolean mayOpen(int repair, int ready) {
    for (Test test : tests) {
      if (!futures.asksAbout(repair, test.step)) {
        continue;
      }
      for (Seen seen : test.sight.findings) {
        if (futures.after(test.step, seen).allows(repair, 0, ready)) {
          return true;
        }
      }
    }
    return false;
  }

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
      apart.findTests();
      apart.settleRepairs(apart.chooseRepairs(OptionalInt.of(s)));
      int r = Arrays.binarySearch(apart.repairs, s);
      if (r >= 0) {
        apart.weighRepair(r).ifPresent(ways::add);
      }
    }
    return ways;
  }

  private Optional<RepairWay> weighRepair(int r) {
    fill(search.start(), null, 0);
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

  // Tests.

  private Worth weigh(Test test, double without, Spend toTheEnd) {
    StepId id = device.steps.get(test.step).id();
    Spend own = costs.spendOfWay(bench, test.step).plus(costs.spendOfStep(test.step));
    Prospect[] prospects = new Prospect[showings.length];
    for (int w = 0; w < prospects.length; w++) {
      prospects[w] = showings[w].prospect(test.sight);
    }
    boolean isAttempt = device.steps.get(test.step).isAttempt();
    boolean opens = opensSomething(test.step);
    if (!isAttempt && !opens && tellsNothing(prospects)) {
      return new Worth(
          id, -test.cost, false, test.cost, Optional.of(toTheEnd.plus(own)), List.of());
    }
    if (!isAttempt && !opens) {
      fill(search.start(), null, 0);
      double bound = without - test.cost - search.leastWhereKnown(test.bench, present);
      if (bound <= 0) {
        return new Worth(id, bound, true, test.cost, Optional.empty(), List.of());
      }
    }
    List<Seen> findings = test.sight.findings;
    List<Worth.Branch> branches = new ArrayList<>(findings.size());
    double after = 0;
    Spend spend = own;
    for (int y = 0; y < findings.size(); y++) {
      Belief belief = search.start();
      fill(belief, new Beliefs(test, prospects, isAttempt), y);
      double pFinding = belief.total;
      if (pFinding <= 0) {
        continue;
      }
      Futures.Future future = opens ? futures.after(test.step, findings.get(y)) : present;
      Found found = search.cheapest(test.bench, future);
      after += found.cost();
      spend = spend.plus(search.spend(found.plan(), test.bench, future));
      Optional<StepId> then =
          found.plan().length == 0 ? Optional.empty() : Optional.of(repairAt(found.plan()[0]));
      branches.add(
          new Worth.Branch(findings.get(y), Math.min(1, pFinding), then, found.cost() / pFinding));
    }
    return new Worth(
        id, without - test.cost - after, false, test.cost, Optional.of(spend), branches);
  }

  private record Beliefs(Test test, Prospect[] prospects, boolean isAttempt) {}

  private boolean opensSomething(int test) {
    for (int repair : repairs) {
      if (futures.asksAbout(repair, test)) {
        return true;
      }
    }
    for (CaseModel.Proof proof : model.proofs) {
      if (proof.step() >= 0 && futures.asksAbout(proof.step(), test)) {
        return true;
      }
    }
    return false;
  }

  /** Whether every finding is as likely in each world as in any other. */
  private boolean tellsNothing(Prospect[] prospects) {
    double[] first = prospects[0].p()[0];
    for (int w = 0; w < prospects.length; w++) {
      if (prospects[w].futures().length != 1 || prospects[w].futures()[0] != showings[w].future) {
        return false;
      }
      double[] row = prospects[w].p()[0];
      for (int y = 0; y < row.length; y++) {
        if (Math.abs(row[y] - first[y]) > RepairSearch.ROUNDING) {
          return false;
        }
      }
    }
    return true;
  }

  // Beliefs.

  /** Fills a belief with what is believed now, or after a finding of a test. */
  private void fill(Belief belief, Beliefs beliefs, int finding) {
    touchedCount = 0;
    for (int w = 0; w < showings.length; w++) {
      if (beliefs == null) {
        addFuture(showings[w].future, p[w]);
        continue;
      }
      Prospect prospect = beliefs.prospects[w];
      for (int f = 0; f < prospect.futures().length; f++) {
        double mass = p[w] * pOf(beliefs.test, prospect.p()[f], finding);
        if (mass <= 0) {
          continue;
        }
        if (!beliefs.isAttempt) {
          addFuture(prospect.futures()[f], mass);
        } else {
          Spread to = model.after(beliefs.test.step, prospect.futures()[f]);
          for (int i = 0; i < to.states().length; i++) {
            addFuture(to.states()[i], mass * to.p()[i]);
          }
        }
      }
    }
    belief.clear();
    for (int i = 0; i < touchedCount; i++) {
      belief.add(touched[i], sums[touched[i]]);
      sums[touched[i]] = 0;
    }
  }

  /** P(finding and future | world), where a repeat may copy what came out before. */
  private double pOf(Test test, double[] row, int finding) {
    if (test.before.isEmpty()) {
      return row[finding];
    }
    double copies = device.steps.get(test.step).copies();
    double fresh = (1 - copies) * row[finding];
    if (!test.sight.findings.get(finding).equals(test.before.get())) {
      return fresh;
    }
    double all = 0;
    for (double q : row) {
      all += q;
    }
    return fresh + copies * all;
  }

  private void addFuture(int future, double mass) {
    Spread spread = model.tree.rowsOf(future);
    if (sums.length < model.tree.rows()) {
      sums = Arrays.copyOf(sums, 2 * model.tree.rows());
      touched = Arrays.copyOf(touched, sums.length);
    }
    for (int i = 0; i < spread.states().length; i++) {
      double more = mass * spread.p()[i];
      int state = spread.states()[i];
      if (more > 0) {
        if (sums[state] == 0) {
          touched[touchedCount++] = state;
        }
        sums[state] += more;
      }
    }
  }
}
