package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Step;
import org.faultwright.pack.SwitchId;
import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Assessment.Testing;
import org.faultwright.planning.CaseModel.Showing;
import org.faultwright.planning.RepairTable.Spread;

/**
 * A place in a job: what is believed of the device and what is known there, what could be done, and
 * where that leads. What a {@link Policy} looks at. Not thread-safe.
 */
final class Place {

  /** What is less likely than this, given the place, is not followed. */
  private static final double NEGLIGIBLE = 1e-12;

  /**
   * The job that a place belongs to.
   *
   * @param repairs those that bear on a cause that may be present when the job begins; no others
   *     are done
   */
  record Job(Planner planner, Intake intake, Permissions permissions, Set<Integer> repairs) {}

  /** Where a job begins. */
  static Place beginning(
      Planner planner, Intake intake, Permissions permissions, LikelyWorlds likely, Situation now) {
    int[] places = planner.device().places(likely.coordinates());
    Map<Bits, Double> sum = new LinkedHashMap<>();
    for (int w = 0; w < likely.size(); w++) {
      Bits world = new Bits(planner.device().world(places, likely.bits()[w]));
      sum.merge(world, likely.p()[w], Double::sum);
    }
    Job any = new Job(planner, intake, permissions, Set.of());
    Set<Integer> repairs = new Place(any, sum, now).assessment().relevantRepairs();
    return new Place(new Job(planner, intake, permissions, repairs), sum, now);
  }

  /** What a test may show: how likely it is, and where it leads. */
  record Result(Seen seen, double p, Place then) {}

  /**
   * What a repair and its function tests lead to.
   *
   * @param pComeback P(a function is lost in use | all function tests pass)
   * @param failed where the job goes on if not all pass; empty: that cannot be
   */
  record Attempt(double pPass, double pComeback, Optional<Place> failed) {}

  final Job job;
  final Situation now;
  final List<byte[]> worlds;
  final double[] p;
  final int bench;
  private final DeviceModel device;
  private final Planner.Setting setting;
  private CaseModel handedOver;
  private Optional<RepairTree.Belief> belief = Optional.empty();
  private Optional<List<Testing>> tests = Optional.empty();
  private Optional<List<Repairing>> repairs = Optional.empty();
  private final Map<Integer, List<Result>> results = new LinkedHashMap<>();
  private final Map<Integer, Attempt> attempts = new LinkedHashMap<>();

  private Place(Job job, Map<Bits, Double> mass, Situation now) {
    this.job = job;
    this.now = now;
    this.device = job.planner.device();
    double total = mass.values().stream().mapToDouble(Double::doubleValue).sum();
    double kept =
        mass.values().stream().filter(m -> m > NEGLIGIBLE * total).mapToDouble(m -> m).sum();
    worlds = new ArrayList<>(mass.size());
    double[] found = new double[mass.size()];
    for (Map.Entry<Bits, Double> m : mass.entrySet()) {
      if (m.getValue() > NEGLIGIBLE * total) {
        found[worlds.size()] = m.getValue() / kept;
        worlds.add(m.getKey().world);
      }
    }
    p = Arrays.copyOf(found, worlds.size());
    setting = job.planner.setting(now, job.intake, job.permissions);
    bench = setting.costs().ways.state(now.on());
  }

  CaseModel model() {
    return setting.model();
  }

  Costs costs() {
    return setting.costs();
  }

  PlanSpending spending() {
    return new PlanSpending(job.planner, model(), costs());
  }

  Step step(int step) {
    return device.steps.get(step);
  }

  Assessment assessment() {
    Showing[] showings = worlds.stream().map(model()::showing).toArray(Showing[]::new);
    return new Assessment(model(), costs(), showings, p, 0, now, job.permissions);
  }

  /** Whether no function is known to be lost any more: the job ends by handing over. */
  boolean nothingLost() {
    return setting.nothingLost();
  }

  /** Ending the job without a repair, in the shop's currency. */
  double exit() {
    return costs().exit(bench).cost();
  }

  /** P(a function is lost in use). */
  double pLost() {
    double lost = 0;
    for (int w = 0; w < p.length; w++) {
      lost += p[w] * pLost(worlds.get(w));
    }
    return Math.min(1, lost);
  }

  /** P(a reported function is lost in use | world), whether it was proved before or not. */
  double pLost(byte[] world) {
    if (handedOver == null) {
      handedOver = handedOver();
    }
    Spread rows = handedOver.tree.rowsOf(handedOver.future(world));
    double lost = 0;
    for (int i = 0; i < rows.states().length; i++) {
      lost += rows.p()[i] * handedOver.tree.lost(rows.states()[i]);
    }
    return lost;
  }

  /** The model of the device when all functions count as back. */
  private CaseModel handedOver() {
    if (nothingLost() || model().lost.size() == now.lost().size()) {
      return model();
    }
    Map<ComplaintId, Boolean> back = new LinkedHashMap<>();
    now.lost().keySet().forEach(c -> back.put(c, false));
    return job.planner.setting(now.withLost(back), job.intake, job.permissions).model();
  }

  /** P(present) of each cause, by its number. */
  double[] pPresent() {
    double[] found = new double[model().logic.causeCount()];
    for (int w = 0; w < p.length; w++) {
      for (int c = 0; c < found.length; c++) {
        found[c] += worlds.get(w)[c] == 1 ? p[w] : 0;
      }
    }
    return found;
  }

  /** The tests that are open and whose outcome is not known, in the pack's order. */
  List<Testing> tests() {
    if (tests.isEmpty()) {
      tests = Optional.of(assessment().openTests());
    }
    return tests.get();
  }

  /** All repairs of the job that are open, in the pack's order. */
  List<Repairing> repairs() {
    if (repairs.isEmpty()) {
      Assessment assessment = assessment();
      List<Repairing> found = new ArrayList<>();
      for (int s : new TreeSet<>(job.repairs)) {
        if (job.repairs.contains(s)) {
          assessment.repairing(s).ifPresent(found::add);
        }
      }
      repairs = Optional.of(found);
    }
    return repairs.get();
  }

  /** Whether a repair bears on what is still lost; of several functions one may be back. */
  boolean bearsOnLost(Repairing repair) {
    return Arrays.binarySearch(model().repairs, repair.step()) >= 0;
  }

  boolean isDone(int step) {
    return now.done().contains(step(step).id());
  }

  /** Forgets what was worked out. */
  void forget() {
    belief = Optional.empty();
    tests = Optional.empty();
    repairs = Optional.empty();
    results.clear();
    attempts.clear();
  }

  /** P(all function tests pass after a repair), and P(a function is lost in use | they do). */
  record Chance(double pPass, double pComeback) {}

  /** As {@link #attempt} of a repair that bears on what is lost, without what follows; quicker. */
  Chance chance(Repairing repair) {
    RepairTree tree = model().tree;
    int number = Arrays.binarySearch(model().repairs, repair.step());
    RepairTree.Node node = tree.after(tree.root(), number, repair.proofs());
    if (belief.isEmpty()) {
      belief = Optional.of(belief());
    }
    RepairTree.Ends ends = tree.ends(node, belief.get());
    double pPass = Math.min(1, Math.max(0, 1 - ends.failed()));
    double lost = ends.lost();
    return new Chance(pPass, pPass > 0 ? Math.min(1, lost / pPass) : 0);
  }

  private RepairTree.Belief belief() {
    Map<Integer, Double> mass = new LinkedHashMap<>();
    for (int w = 0; w < p.length; w++) {
      Spread rows = model().tree.rowsOf(model().showing(worlds.get(w)).future);
      for (int i = 0; i < rows.states().length; i++) {
        mass.merge(rows.states()[i], p[w] * rows.p()[i], Double::sum);
      }
    }
    RepairTree.Belief found = new RepairTree.Belief();
    mass.forEach(found::add);
    return found;
  }

  // Where things lead.

  /** What may come out of a test, in the pack's order. */
  List<Result> results(Testing test) {
    return results.computeIfAbsent(test.step(), s -> findResults(test));
  }

  private List<Result> findResults(Testing test) {
    List<Seen> findings = test.sight().findings;
    List<Map<Bits, Double>> mass = new ArrayList<>();
    findings.forEach(f -> mass.add(new LinkedHashMap<>()));
    for (int w = 0; w < p.length; w++) {
      double pWorld = p[w];
      look(
          test,
          worlds.get(w),
          (y, after, q) -> mass.get(y).merge(new Bits(after.clone()), pWorld * q, Double::sum));
    }
    List<Result> found = new ArrayList<>();
    for (int y = 0; y < mass.size(); y++) {
      double pSeen = mass.get(y).values().stream().mapToDouble(Double::doubleValue).sum();
      if (pSeen > NEGLIGIBLE) {
        Situation then = Imagined.afterTest(device, now, test.step(), findings.get(y));
        found.add(
            new Result(
                findings.get(y), pSeen, new Place(job, mass.get(y), on(then, test.bench()))));
      }
    }
    return found;
  }

  /** Takes a finding of a test, by its place, and a world that is left behind; it is lent. */
  interface FindingTaker {
    void take(int finding, byte[] after, double p);
  }

  /** All that a test may show and leave behind in one world. */
  void look(Testing test, byte[] world, FindingTaker taker) {
    boolean isAttempt = step(test.step()).isAttempt();
    Leaves.of(
        device.logic,
        test.sight(),
        world.clone(),
        (leaf, q, row) -> {
          for (int y = 0; y < row.length; y++) {
            double m = q * row[y];
            if (m > 0 && isAttempt) {
              int finding = y;
              device.effects[test.step()].spread(
                  leaf, (after, harm) -> taker.take(finding, after, m * harm));
            } else if (m > 0) {
              taker.take(y, leaf, m);
            }
          }
        });
  }

  private Situation on(Situation s, int benchThen) {
    Set<SwitchId> on = costs().ways.on(benchThen, s.on());
    return s.withOn(new LinkedHashSet<>(on));
  }

  /** What a repair with its function tests leads to. */
  Attempt attempt(Repairing repair) {
    return attempts.computeIfAbsent(repair.step(), s -> findAttempt(repair));
  }

  private Attempt findAttempt(Repairing repair) {
    Map<Bits, Double> failed = new LinkedHashMap<>();
    double[] passed = new double[2];
    for (int w = 0; w < p.length; w++) {
      double pWorld = p[w];
      tryOut(
          repair,
          worlds.get(w),
          (passes, after, q) -> {
            if (!passes) {
              failed.merge(new Bits(after.clone()), pWorld * q, Double::sum);
            } else {
              passed[0] += pWorld * q;
              passed[1] += pWorld * q * pLost(after);
            }
          });
    }
    double pFail = failed.values().stream().mapToDouble(Double::doubleValue).sum();
    double pPass = Math.min(1, passed[0]);
    double pComeback = passed[0] > 0 ? Math.min(1, passed[1] / passed[0]) : 0;
    if (pFail <= NEGLIGIBLE) {
      return new Attempt(1, pComeback, Optional.empty());
    }
    List<Step> tested = new ArrayList<>();
    for (int proof : repair.proofs()) {
      int test = model().proofs.get(proof).step();
      if (test >= 0) {
        tested.add(step(test));
      }
    }
    Situation then = Imagined.afterRepair(device, now, repair.step(), tested);
    return new Attempt(
        pPass, pComeback, Optional.of(new Place(job, failed, on(then, repair.bench()))));
  }

  /** Takes whether all function tests pass, and a world that is left behind; it is lent. */
  interface ProofTaker {
    void take(boolean passes, byte[] after, double p);
  }

  /** All that a repair and its function tests may come to in one world. */
  void tryOut(Repairing repair, byte[] world, ProofTaker taker) {
    device.effects[repair.step()].spread(
        world, (after, q) -> prove(repair.proofs(), 0, after, q, true, taker));
  }

  private void prove(
      int[] proofs, int at, byte[] world, double q, boolean passes, ProofTaker taker) {
    if (at == proofs.length) {
      taker.take(passes, world, q);
      return;
    }
    Sight sight = model().proofs.get(proofs[at]).sight();
    Leaves.of(
        device.logic,
        sight,
        world.clone(),
        (leaf, r, row) -> {
          double pPass = row[sight.pass];
          if (q * r * pPass > 0) {
            prove(proofs, at + 1, leaf, q * r * pPass, passes, taker);
          }
          if (q * r * (1 - pPass) > 0) {
            prove(proofs, at + 1, leaf, q * r * (1 - pPass), false, taker);
          }
        });
  }
}
