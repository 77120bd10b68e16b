package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.planning.Assessment.Ecr0;
import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Assessment.Testing;
import org.faultwright.planning.CaseModel.Showing;
import org.faultwright.planning.RepairTable.Spread;

/**
 * V*, as far as it can be looked ahead: each step that is open is tried, and each outcome followed,
 * down to a number of steps after which ECR0 is taken; the number grows until nothing is cut off,
 * or the time is up. Below each cut the cost is at least what it would be if the state of the
 * device were known, so that the gap is known too.
 *
 * <p>A belief is a set of worlds with probabilities. Values are kept by belief, situation and steps
 * ahead, so that tests in different orders meet; a value below which nothing was cut off is exact
 * whatever the number of steps.
 */
final class PlanSearch {

  private static final double ROUNDING = 1e-12;

  /** Probabilities that differ by less than this are the same belief. */
  private static final double SAME = 1e-11;

  private static final double IMPOSSIBLE = 1e-15;

  /** With so few worlds, values with bounds are cheap. */
  private static final int FEW_WORLDS = 12;

  /** More values than this are not kept. */
  private static final int MOST_KEPT = 200_000;

  private final Planner planner;
  private final Intake intake;
  private final Permissions permissions;
  private final PlanLimits limits;
  private final DeviceModel device;
  private final Costs leastCosts;
  private final Map<CaseModel, Bounds> bounds = new HashMap<>();
  private final Map<Key, Value> exact = new HashMap<>();
  private final Map<Key, Map<Integer, Value>> values = new HashMap<>();
  private long deadline;

  /** Until then a place at which one step ahead sees nothing worth doing is looked at closely. */
  private long patience;

  /** The repairs that cure something at the beginning. */
  private Set<Integer> inPlan = Set.of();

  PlanSearch(Planner planner, Intake intake, Permissions permissions, PlanLimits limits) {
    this.planner = planner;
    this.intake = intake;
    this.permissions = permissions;
    this.limits = limits;
    this.device = planner.device();
    this.leastCosts = planner.leastCosts(intake);
  }

  /** What is believed, and known, at a place of the plan. The probabilities sum to 1. */
  record Here(List<byte[]> worlds, double[] p, Situation now) {}

  private record Key(Situation now, Map<Bits, Long> belief) {}

  /**
   * What a place is worth.
   *
   * @param cost by the best policy found
   * @param atLeast by any policy
   * @param test the test to do; or empty
   * @param repair the repair to do; both empty: to end the job
   */
  private record Value(
      double cost, double atLeast, Optional<Testing> test, Optional<Repairing> repair) {
    boolean isExact() {
      return cost - atLeast <= ROUNDING * Math.max(1, Math.abs(cost));
    }
  }

  private static final class TimeIsUp extends RuntimeException {
    private static final long serialVersionUID = 1;

    TimeIsUp() {
      super("time is up", null, false, false);
    }
  }

  Plan plan(LikelyWorlds likely, Situation now) {
    deadline = System.nanoTime() + limits.budget().toNanos();
    patience = deadline;
    int[] places = device.places(likely.coordinates());
    Map<Bits, Double> sum = new LinkedHashMap<>();
    for (int w = 0; w < likely.size(); w++) {
      sum.merge(new Bits(device.world(places, likely.bits()[w])), likely.p()[w], Double::sum);
    }
    Here here = here(sum, now);
    inPlan = assessment(here, planner.setting(now, intake, permissions)).relevantRepairs();
    double atLeast = 0;
    int ahead = 0;
    try {
      for (int n = 0; n <= limits.mostAhead(); n++) {
        Value value = value(here, n);
        atLeast = Math.max(atLeast, value.atLeast);
        ahead = n;
        if (value.isExact()) {
          break;
        }
      }
    } catch (TimeIsUp e) {
      // what was found with fewer steps ahead stands
    }
    deadline = Long.MAX_VALUE;
    ahead = Math.max(ahead, Math.min(1, limits.mostAhead()));
    PlanNode root = node(here, ahead, 1, 0);
    return new Plan(
        root, planner.shop(), Math.min(atLeast, root.expectedCost()), ahead, likely.pLeftOut());
  }

  private static Here here(Map<Bits, Double> mass, Situation now) {
    double total = mass.values().stream().mapToDouble(Double::doubleValue).sum();
    List<byte[]> worlds = new ArrayList<>(mass.size());
    double[] p = new double[mass.size()];
    for (Map.Entry<Bits, Double> m : mass.entrySet()) {
      p[worlds.size()] = m.getValue() / total;
      worlds.add(m.getKey().world);
    }
    return new Here(worlds, p, now);
  }

  private static Key key(Here here) {
    Map<Bits, Long> belief = new HashMap<>();
    for (int w = 0; w < here.p.length; w++) {
      belief.merge(new Bits(here.worlds.get(w)), Math.round(here.p[w] / SAME), Long::sum);
    }
    return new Key(here.now, belief);
  }

  // Values.

  private Value value(Here here, int ahead) {
    Key key = key(here);
    Value known = exact.get(key);
    if (known == null) {
      known = values.getOrDefault(key, Map.of()).get(ahead);
    }
    if (known != null) {
      return known;
    }
    if (System.nanoTime() > deadline) {
      throw new TimeIsUp();
    }
    Value found = findValue(here, ahead);
    if (exact.size() + values.size() < MOST_KEPT) {
      if (found.isExact()) {
        exact.put(key, found);
      } else {
        values.computeIfAbsent(key, k -> new HashMap<>()).put(ahead, found);
      }
    }
    return found;
  }

  private Value findValue(Here here, int ahead) {
    Planner.Setting setting = planner.setting(here.now, intake, permissions);
    Assessment assessment = assessment(here, setting);
    int bench = setting.costs().ways.state(here.now.on());
    if (setting.nothingLost()) {
      double cost = handOver(assessment, setting, bench);
      return new Value(cost, cost, Optional.empty(), Optional.empty());
    }
    assessment.settled(inPlan);
    List<Repairing> repairs = assessment.repairings();
    List<Testing> tests = assessment.testings();
    double exit = setting.costs().exit(bench).cost();
    Ecr0 ecr0 = assessment.ecr0();
    double cost = ecr0.cost();
    Optional<Testing> test = Optional.empty();
    Optional<Repairing> repair = repairs.stream().filter(r -> r.step() == ecr0.first()).findAny();
    if (ahead == 0) {
      double least =
          repairs.isEmpty() && tests.isEmpty() ? exit : whereKnown(here, setting.model());
      return new Value(cost, Math.min(cost, least), test, repair);
    }
    double atLeast = exit;
    for (Repairing r : repairs) {
      if (r.cost() >= cost) {
        atLeast = Math.min(atLeast, r.cost());
        continue;
      }
      Attempt attempt = attempt(here, setting, r);
      double now = r.cost() + attempt.pPass * close(setting, r, attempt);
      Value after = attempt.failed.isEmpty() ? NOTHING : value(attempt.failed.get(), ahead - 1);
      double all = now + (1 - attempt.pPass) * after.cost;
      atLeast = Math.min(atLeast, now + (1 - attempt.pPass) * after.atLeast);
      if (all < cost - ROUNDING * cost) {
        cost = all;
        repair = Optional.of(r);
        test = Optional.empty();
      }
    }
    double known = whereKnown(here, setting.model());
    atLeast = assessment.leavesOutRepairs() ? Math.min(atLeast, known) : atLeast;
    List<Testing> cheapestFirst = new ArrayList<>(tests);
    cheapestFirst.sort(Comparator.comparingDouble(Testing::cost));
    for (Testing t : cheapestFirst) {
      double all = t.cost();
      double least = t.cost();
      if (all + known >= cost) {
        atLeast = Math.min(atLeast, all + known);
        continue;
      }
      for (Result result : results(here, setting, t)) {
        Value after = value(result.then, ahead - 1);
        all += result.p * after.cost;
        least += result.p * after.atLeast;
      }
      atLeast = Math.min(atLeast, least);
      if (all < cost - ROUNDING * cost) {
        cost = all;
        test = Optional.of(t);
        repair = Optional.empty();
      }
    }
    return new Value(cost, Math.min(cost, atLeast), test, repair);
  }

  private static final Value NOTHING = new Value(0, 0, Optional.empty(), Optional.empty());

  private Assessment assessment(Here here, Planner.Setting setting) {
    Showing[] showings = here.worlds.stream().map(setting.model()::showing).toArray(Showing[]::new);
    return new Assessment(
        setting.model(), setting.costs(), showings, here.p, 0, here.now, permissions);
  }

  private static double handOver(Assessment assessment, Planner.Setting setting, int bench) {
    return setting.costs().close(bench)
        + assessment.handOver().pLost() * setting.costs().comeback;
  }

  private static double close(Planner.Setting setting, Repairing r, Attempt attempt) {
    return setting.costs().close(r.bench()) + attempt.pComeback * setting.costs().comeback;
  }

  /** The least that it could cost from here on, were the state of the device known. */
  private double whereKnown(Here here, CaseModel model) {
    if (model.repairs.length > MOST_BOUNDED) {
      return 0;
    }
    Bounds bound = bounds.computeIfAbsent(model, this::bound);
    int bench = leastCosts.ways.state(here.now.on());
    double sum = 0;
    for (int w = 0; w < here.p.length; w++) {
      Spread rows = model.tree.rowsOf(model.showing(here.worlds.get(w)).future);
      for (int i = 0; i < rows.states().length; i++) {
        sum += here.p[w] * rows.p()[i] * bound.whereKnown(rows.states()[i], bench);
      }
    }
    return sum;
  }

  /** Repairs that a lower bound is worked out for. */
  private static final int MOST_BOUNDED = 10;

  private Bounds bound(CaseModel model) {
    int n = model.repairs.length;
    int[] all = new int[n];
    int again = 0;
    for (int r = 0; r < n; r++) {
      all[r] = r;
      again |= device.steps.get(model.repairs[r]).repeatable() ? 1 << r : 0;
    }
    Bounds bound = new Bounds(model.tree, leastCosts, all, again, true);
    int[][] each = new int[model.proofs.size()][];
    for (int p = 0; p < each.length; p++) {
      each[p] = new int[] {p};
    }
    int[][][] possible = new int[n][][];
    java.util.Arrays.fill(possible, each);
    bound.prepare(
        new RepairSearch.Options() {
          @Override
          public boolean isOpen(int repair, int done, int bench) {
            return true;
          }

          @Override
          public int[] proofs(int repair, int done, int bench) {
            return each[0];
          }

          @Override
          public int[][][] possibleProofs() {
            return possible;
          }
        });
    return bound;
  }

  // What steps lead to.

  private record Result(Seen seen, double p, Here then) {}

  /** What may come out of a test, likeliest or not, in the pack's order. */
  private List<Result> results(Here here, Planner.Setting setting, Testing test) {
    List<Seen> findings = test.sight().findings;
    List<Map<Bits, Double>> mass = new ArrayList<>();
    findings.forEach(f -> mass.add(new LinkedHashMap<>()));
    boolean isAttempt = device.steps.get(test.step()).isAttempt();
    for (int w = 0; w < here.p.length; w++) {
      double pWorld = here.p[w];
      Leaves.of(
          device.logic,
          test.sight(),
          here.worlds.get(w).clone(),
          (leaf, p, row) -> {
            Bits seen = new Bits(leaf.clone());
            for (int y = 0; y < row.length; y++) {
              double m = pWorld * p * row[y];
              if (m > IMPOSSIBLE) {
                Map<Bits, Double> of = mass.get(y);
                if (isAttempt) {
                  device.effects[test.step()].spread(
                      leaf, (after, q) -> of.merge(new Bits(after.clone()), m * q, Double::sum));
                } else {
                  of.merge(seen, m, Double::sum);
                }
              }
            }
          });
    }
    List<Result> results = new ArrayList<>();
    for (int y = 0; y < mass.size(); y++) {
      double p = mass.get(y).values().stream().mapToDouble(Double::doubleValue).sum();
      if (p > IMPOSSIBLE) {
        Situation then = Imagined.afterTest(device, here.now, test.step(), findings.get(y));
        results.add(
            new Result(findings.get(y), p, here(mass.get(y), on(setting, then, test.bench()))));
      }
    }
    return results;
  }

  private static Situation on(Planner.Setting setting, Situation s, int bench) {
    Set<SwitchId> on = setting.costs().ways.on(bench, s.on());
    return s.withOn(new LinkedHashSet<>(on));
  }

  /**
   * What a repair and its function tests lead to.
   *
   * @param pComeback P(a function is lost in use | all function tests pass)
   */
  private record Attempt(double pPass, double pComeback, Optional<Here> failed) {}

  private Attempt attempt(Here here, Planner.Setting setting, Repairing repair) {
    CaseModel model = setting.model();
    Map<Bits, Double> passed = new LinkedHashMap<>();
    Map<Bits, Double> failed = new LinkedHashMap<>();
    for (int w = 0; w < here.p.length; w++) {
      double p = here.p[w];
      device.effects[repair.step()].spread(
          here.worlds.get(w),
          (after, q) -> prove(model, repair.proofs(), 0, after, p * q, true, passed, failed));
    }
    double pPass = 0;
    double lost = 0;
    for (Map.Entry<Bits, Double> m : passed.entrySet()) {
      pPass += m.getValue();
      Spread rows = model.tree.rowsOf(model.future(m.getKey().world));
      for (int i = 0; i < rows.states().length; i++) {
        lost += m.getValue() * rows.p()[i] * model.tree.lost(rows.states()[i]);
      }
    }
    double pFail = failed.values().stream().mapToDouble(Double::doubleValue).sum();
    List<Step> tests = new ArrayList<>();
    for (int proof : repair.proofs()) {
      int step = model.proofs.get(proof).step();
      if (step >= 0) {
        tests.add(device.steps.get(step));
      }
    }
    Situation then = Imagined.afterRepair(device, here.now, repair.step(), tests);
    Optional<Here> afterwards =
        pFail > IMPOSSIBLE
            ? Optional.of(here(failed, on(setting, then, repair.bench())))
            : Optional.empty();
    return new Attempt(Math.min(1, pPass), pPass > 0 ? Math.min(1, lost / pPass) : 0, afterwards);
  }

  private void prove(
      CaseModel model,
      int[] proofs,
      int at,
      byte[] world,
      double p,
      boolean passes,
      Map<Bits, Double> passed,
      Map<Bits, Double> failed) {
    if (at == proofs.length) {
      (passes ? passed : failed).merge(new Bits(world.clone()), p, Double::sum);
      return;
    }
    Sight sight = model.proofs.get(proofs[at]).sight();
    Leaves.of(
        device.logic,
        sight,
        world.clone(),
        (leaf, q, row) -> {
          double pPass = row[sight.pass];
          if (p * q * pPass > IMPOSSIBLE) {
            prove(model, proofs, at + 1, leaf, p * q * pPass, passes, passed, failed);
          }
          if (p * q * (1 - pPass) > IMPOSSIBLE) {
            prove(model, proofs, at + 1, leaf, p * q * (1 - pPass), false, passed, failed);
          }
        });
  }

  // Writing the plan down.

  /** What to do at a place of the plan. */
  private Value decide(Here here, Planner.Setting setting, int ahead, int depth) {
    int left = Math.max(Math.min(1, limits.mostAhead()), ahead - depth);
    if (left != 1 || here.p.length <= FEW_WORLDS || exact.containsKey(key(here))) {
      return value(here, left);
    }
    // one step ahead, without the bounds; a function test that passes may end the job, which a
    // weighing does not know
    Assessment assessment = assessment(here, setting);
    Weighing weighing = assessment.weigh(List.of());
    Optional<StepId> next = Optional.empty();
    if (weighing.next() instanceof NextStep.Leave && System.nanoTime() < patience) {
      return value(here, left);
    }
    if (weighing.next() instanceof NextStep.DoTest test) {
      if (device.steps.get(device.number(test.test().step())).proves().isPresent()) {
        return value(here, left);
      }
      next = Optional.of(test.test().step());
    } else if (weighing.next() instanceof NextStep.DoRepair repair) {
      next = Optional.of(repair.repair().repair());
    }
    int step = next.map(device::number).orElse(-1);
    return new Value(
        weighing.expectedCost(),
        0,
        assessment.testings().stream().filter(t -> t.step() == step).findFirst(),
        assessment.repairings().stream().filter(r -> r.step() == step).findFirst());
  }

  private PlanNode node(Here here, int ahead, double pHere, int depth) {
    Planner.Setting setting = planner.setting(here.now, intake, permissions);
    PlanSpending spending = new PlanSpending(planner, setting);
    int bench = setting.costs().ways.state(here.now.on());
    if (setting.nothingLost()) {
      double pLost = assessment(here, setting).handOver().pLost();
      return spending.handedOver(bench, pLost);
    }
    Value value = decide(here, setting, ahead, depth);
    if (value.test.isEmpty() && value.repair.isEmpty()) {
      return spending.exit(bench);
    }
    if (depth >= limits.mostSteps() || pHere < limits.leastP()) {
      Optional<StepId> next =
          value
              .repair
              .map(r -> device.steps.get(r.step()).id())
              .or(() -> value.test.map(t -> device.steps.get(t.step()).id()));
      return new PlanNode.AndSoOn(value.cost, next);
    }
    if (value.test.isPresent()) {
      Testing test = value.test.get();
      List<PlanNode.Branch> branches = new ArrayList<>();
      double rest = 0;
      for (Result r : results(here, setting, test)) {
        PlanNode then = node(r.then, ahead, pHere * r.p, depth + 1);
        rest += r.p * then.expectedCost();
        branches.add(new PlanNode.Branch(r.seen, r.p, then));
      }
      return spending.test(bench, test, rest, branches);
    }
    Repairing repair = value.repair.get();
    Attempt attempt = attempt(here, setting, repair);
    PlanNode ifPassed = spending.handedOver(repair.bench(), attempt.pComeback);
    PlanNode ifFailed =
        attempt.failed.isPresent()
            ? node(attempt.failed.get(), ahead, pHere * (1 - attempt.pPass), depth + 1)
            : ifPassed;
    double pPass = attempt.failed.isPresent() ? attempt.pPass : 1;
    return spending.repair(bench, repair, pPass, ifPassed, ifFailed);
  }
}
