package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.CaseModel.Proof;

/**
 * What is allowed now, and in imagined situations: after a test has come out in some way, and after
 * repairs that have not helped. Each answer is the value of a guard of the rules; a guard that asks
 * for nothing that has changed is evaluated once.
 */
final class Futures {

  private final CaseModel model;
  private final DeviceModel device;
  private final Costs costs;
  private final Situation now;
  private final Guard[] guards;
  private final GuardReferences[] references;
  private final byte[] openNow;
  private final int benchNow;
  private final Future[] asked;

  /** A repair, with the function tests that may follow it. */
  private final class Repair {
    final int step;
    final int[] repeats;

    /** Itself and its function tests: what will have been done, and come out, after it. */
    final Set<StepId> adds = new LinkedHashSet<>();

    /** All that a guard may ask for and find changed after it. */
    final Set<StepId> changes = new LinkedHashSet<>();

    final Set<PointId> changesPoints;

    Repair(int step) {
      this.step = step;
      StepId id = device.steps.get(step).id();
      int then = device.steps.get(step).thenRepeat().map(device::number).orElse(-1);
      List<Integer> found = new ArrayList<>();
      for (int p = 0; p < model.proofs.size(); p++) {
        if (then >= 0 && model.proofs.get(p).step() == then) {
          found.add(p);
        }
      }
      repeats = found.stream().mapToInt(Integer::intValue).toArray();
      adds.add(id);
      changesPoints = device.movesReadings(step);
      for (Proof proof : model.proofs) {
        if (proof.step() >= 0 && (proof.step() == then || proof.complaint() >= 0)) {
          adds.add(device.steps.get(proof.step()).id());
        }
      }
      changes.addAll(adds);
      changes.addAll(device.movesOutcomes(step));
    }

    /** The tests that follow the repair where nothing stands in their way. */
    int[] usualProofs() {
      return repeats.length > 0
          ? repeats
          : Arrays.stream(proofsOf)
              .mapToInt(ofComplaint -> ofComplaint[0])
              .filter(p -> model.proofs.get(p).step() >= 0)
              .toArray();
    }
  }

  private Repair[] repairs = {};

  /** For each step the repairs that change something that its guard asks for, as bits. */
  private int[] changedBy;

  private final int[][] proofsOf;

  Futures(CaseModel model, Costs costs, Permissions permissions, Situation now) {
    this.model = model;
    this.device = model.device;
    this.costs = costs;
    this.now = now;
    this.benchNow = costs.ways.state(now.on());
    int steps = device.steps.size();
    guards = new Guard[steps];
    references = new GuardReferences[steps];
    openNow = new byte[steps];
    asked = new Future[steps];
    Arrays.fill(openNow, FaultLogic.UNKNOWN);
    changedBy = new int[steps];
    for (int s = 0; s < steps; s++) {
      guards[s] = permissions.steps().get(device.steps.get(s).id());
      references[s] = guards[s] == null ? null : new GuardReferences(guards[s].condition());
    }
    proofsOf = new int[model.lost.size()][];
    for (int c = 0; c < proofsOf.length; c++) {
      List<Integer> found = new ArrayList<>();
      for (int p = 0; p < model.proofs.size(); p++) {
        if (model.proofs.get(p).complaint() == c) {
          found.add(p);
        }
      }
      proofsOf[c] = found.stream().mapToInt(Integer::intValue).toArray();
    }
  }

  private Futures(Futures like) {
    model = like.model;
    device = like.device;
    costs = like.costs;
    now = like.now;
    benchNow = like.benchNow;
    guards = like.guards;
    references = like.references;
    openNow = like.openNow;
    asked = like.asked;
    changedBy = new int[guards.length];
    proofsOf = like.proofsOf;
  }

  /** The same, to be settled for other repairs. */
  Futures alike() {
    return new Futures(this);
  }

  /** Settles the repairs that the search will be about. */
  void settle(int[] steps) {
    repairs = new Repair[steps.length];
    for (int r = 0; r < steps.length; r++) {
      repairs[r] = new Repair(steps[r]);
    }
    for (int s = 0; s < references.length; s++) {
      changedBy[s] = 0;
      for (int r = 0; r < steps.length && references[s] != null; r++) {
        boolean changes =
            meet(references[s].steps, repairs[r].changes)
                || meet(references[s].points, repairs[r].changesPoints);
        changedBy[s] |= changes ? 1 << r : 0;
      }
    }
  }

  private static <T> boolean meet(Set<T> asked, Set<T> changed) {
    for (T a : asked) {
      if (changed.contains(a)) {
        return true;
      }
    }
    return false;
  }

  /** Whether the guard of a step asks for something that another step may change. */
  boolean asksAbout(int step, int other) {
    if (asked[other] == null) {
      asked[other] = new Future(null, other, new Seen.AllNormal());
    }
    return asked[other].bearsOn(step);
  }

  /**
   * Whether a step that is not open now would be after repairs that have not helped; each is tried
   * by itself, and all together.
   *
   * @param attempts the repairs, by step number
   */
  boolean opensAfter(int step, List<Integer> attempts, int ready) {
    if (references[step] == null) {
      return false;
    }
    List<Repair> asked = new ArrayList<>();
    for (int attempt : attempts) {
      Repair repair = new Repair(attempt);
      if (attempt != step && meet(references[step].steps, repair.adds)) {
        asked.add(repair);
        if (guards[step].holdsIn(after(List.of(repair), ready))) {
          return true;
        }
      }
    }
    return asked.size() > 1 && guards[step].holdsIn(after(asked, ready));
  }

  private Situation after(List<Repair> done, int ready) {
    Situation s = new Future(null, -1, new Seen.AllNormal()).imagine(done);
    return s.withOn(costs.ways.on(ready, now.on()));
  }

  /** The situation as it is. */
  Future present() {
    return new Future(null, -1, new Seen.AllNormal());
  }

  /** The situation after a step has come out in some way. */
  Future after(int step, Seen seen) {
    return new Future(null, step, seen);
  }

  /** One imagined situation and those that repairs lead to from it. */
  final class Future implements RepairSearch.Options {

    /** What came before the step; null: nothing but what is the case now. */
    private final Future before;

    private final int step;
    private final Seen seen;
    private final Set<StepId> changed = new LinkedHashSet<>();
    private final Set<PointId> changedPoints = new LinkedHashSet<>();
    private final Map<Integer, Situation> situations = new HashMap<>();
    private final Map<Long, Boolean> open = new HashMap<>();
    private final Map<Long, int[]> proofs = new HashMap<>();
    private int[][][] possible;

    private Future(Future before, int step, Seen seen) {
      this.before = before;
      this.step = step;
      this.seen = seen;
      if (step >= 0) {
        Step s = device.steps.get(step);
        changed.add(s.id());
        DeviceModel.points(s).forEach(p -> changedPoints.add(p.id()));
        if (s.isAttempt()) {
          changed.addAll(device.movesOutcomes(step));
          changedPoints.addAll(device.movesReadings(step));
        }
      }
    }

    /** The situation after one more step has come out in some way. */
    Future after(int next, Seen itsFinding) {
      return new Future(this, next, itsFinding);
    }

    /** Whether the guard of a step may have another value here than it has now. */
    boolean bearsOn(int other) {
      GuardReferences asked = references[other];
      return before != null && before.bearsOn(other)
          || step >= 0
              && asked != null
              && (meet(asked.steps, changed)
                  || meet(asked.points, changedPoints)
                  || device
                      .steps
                      .get(step)
                      .proves()
                      .filter(asked.complaints::contains)
                      .isPresent());
    }

    /** Whether a step may be done, with the bench ready for it. */
    boolean allows(int other, int done, int bench) {
      if (guards[other] == null) {
        return false;
      }
      int repaired = done & changedBy[other];
      boolean bears = bearsOn(other);
      if (!bears && repaired == 0 && references[other].switches.isEmpty()) {
        if (openNow[other] == FaultLogic.UNKNOWN) {
          openNow[other] = (byte) (guards[other].holdsIn(now) ? 1 : 0);
        }
        return openNow[other] == 1;
      }
      long key = ((long) other << 32) | ((long) repaired << 16) | bench;
      Boolean known = open.get(key);
      if (known == null) {
        Situation s = situation(repaired).withOn(costs.ways.on(bench, now.on()));
        known = guards[other].holdsIn(s);
        open.put(key, known);
      }
      return known;
    }

    @Override
    public boolean isOpen(int repair, int done, int bench) {
      return allows(repairs[repair].step, done, bench);
    }

    @Override
    public int[] proofs(int repair, int done, int bench) {
      long key = ((long) repair << 32) | ((long) done << 16) | bench;
      int[] known = proofs.get(key);
      if (known == null) {
        known = chooseProofs(repairs[repair], done, bench);
        proofs.put(key, known);
      }
      return known;
    }

    private int[] chooseProofs(Repair repair, int done, int bench) {
      List<Integer> chosen = new ArrayList<>();
      boolean[] proved = new boolean[proofsOf.length];
      int at = bench;
      for (int p : repair.repeats) {
        if (isUsable(p, done, at)) {
          chosen.add(p);
          int complaint = model.proofs.get(p).complaint();
          at = costs.benchFor(at, model.proofs.get(p).step());
          if (complaint >= 0) {
            proved[complaint] = true;
          } else if (proved.length == 1) {
            proved[0] = true;
          }
        }
      }
      for (int c = 0; c < proved.length; c++) {
        for (int i = 0; i < proofsOf[c].length && !proved[c]; i++) {
          int p = proofsOf[c][i];
          int test = model.proofs.get(p).step();
          if (test < 0 || isUsable(p, done, at)) {
            chosen.add(p);
            at = test < 0 ? at : costs.benchFor(at, test);
            proved[c] = true;
          }
        }
      }
      return chosen.stream().mapToInt(Integer::intValue).toArray();
    }

    private boolean isUsable(int proof, int done, int bench) {
      int test = model.proofs.get(proof).step();
      int ready = costs.benchFor(bench, test);
      return ready >= 0 && allows(test, done, ready);
    }

    @Override
    public int[][][] possibleProofs() {
      if (possible == null) {
        possible = new int[repairs.length][][];
        for (int r = 0; r < repairs.length; r++) {
          possible[r] = possibleProofs(r);
        }
      }
      return possible;
    }

    /** One answer where nothing can change it; else each test that may be a part of one. */
    private int[][] possibleProofs(int r) {
      List<Integer> candidates = new ArrayList<>();
      Arrays.stream(repairs[r].repeats).forEach(candidates::add);
      for (int[] ofComplaint : proofsOf) {
        Arrays.stream(ofComplaint).forEach(candidates::add);
      }
      boolean isFixed = true;
      for (int p : candidates) {
        int test = model.proofs.get(p).step();
        isFixed &=
            test < 0
                || guards[test] == null
                || !bearsOn(test)
                    && changedBy[test] == 0
                    && references[test].switches.isEmpty()
                    && costs.leadsSurely(benchNow, test);
      }
      if (isFixed) {
        return new int[][] {proofs(r, 1 << r, benchNow)};
      }
      return candidates.stream().map(p -> new int[] {p}).toArray(int[][]::new);
    }

    private Situation situation(int repaired) {
      return situations.computeIfAbsent(repaired, r -> imagine((int) r));
    }

    private Situation imagine(int repaired) {
      List<Repair> done = new ArrayList<>();
      for (int r = 0; r < repairs.length; r++) {
        if ((repaired >> r & 1) == 1) {
          done.add(repairs[r]);
        }
      }
      return imagine(done);
    }

    private Situation imagine(List<Repair> repaired) {
      Situation s = afterTests();
      for (Repair repair : repaired) {
        List<Step> failed = new ArrayList<>();
        for (int p : repair.usualProofs()) {
          failed.add(device.steps.get(model.proofs.get(p).step()));
        }
        s = Imagined.afterRepair(device, s, repair.step, failed);
      }
      return s;
    }

    private Situation afterTests() {
      Situation s = before == null ? now : before.afterTests();
      return step < 0 ? s : Imagined.afterTest(device, s, step, seen);
    }
  }
}
