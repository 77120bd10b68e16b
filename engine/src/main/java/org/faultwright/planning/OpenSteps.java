package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.planning.Assessment.Repairing;

/** The tests that could be done now, and the repairs to plan with. */
final class OpenSteps {

  /** Causes less likely than this call for no repair. */
  private static final double NEGLIGIBLE = 1e-6;

  private final CaseModel model;
  private final DeviceModel device;
  private final Costs costs;
  private final Situation now;
  private final int bench;
  private final Futures futures;
  private final Futures.Future present;
  private final WorldMasses masses;

  private List<Test> tests;
  private boolean leavesRepairsOut;

  /** Repairs to plan with, whatever they cure now; empty: those that cure something now. */
  private Optional<Set<Integer>> inPlan = Optional.empty();

  /**
   * A test that could be done now.
   *
   * @param before how it came out, where it has been done
   * @param cost with what it needs of the bench
   * @param bench after it
   */
  record Test(int step, Sight sight, Optional<Seen> before, double cost, int bench) {}

  OpenSteps(CaseModel model, Costs costs, Situation now, Futures futures, WorldMasses masses) {
    this.model = model;
    this.device = model.device;
    this.costs = costs;
    this.now = now;
    this.futures = futures;
    this.masses = masses;
    bench = costs.ways.state(now.on());
    present = futures.present();
  }

  /** Counts only repairs that cured something at the beginning of a plan. */
  void keepTo(Set<Integer> repairs) {
    // of several functions one may be back by now, and what bears on that one alone is done with
    inPlan =
        Optional.of(
            repairs.stream()
                .filter(s -> Arrays.binarySearch(model.repairs, s) >= 0)
                .collect(Collectors.toSet()));
  }

  /** The repairs that cure something which is not negligible now. */
  Set<Integer> relevantRepairs() {
    double[] pPresent = masses.pPresent();
    return Arrays.stream(model.repairs)
        .filter(s -> bearsOnLost(s, pPresent))
        .boxed()
        .collect(Collectors.toSet());
  }

  /** Whether the repairs last chosen are not all there are. */
  boolean leavesRepairsOut() {
    return leavesRepairsOut;
  }

  /** The tests that could be done now, in the pack's order. */
  List<Test> tests() {
    if (tests == null) {
      tests = findTests();
    }
    return tests;
  }

  private List<Test> findTests() {
    List<Test> found = new ArrayList<>();
    for (int s = 0; s < device.steps.size(); s++) {
      int ready = costs.benchFor(bench, s);
      if (isTest(s) && ready >= 0 && present.allows(s, 0, ready)) {
        test(s, bench, ready, Set.of()).ifPresent(found::add);
      }
    }
    return found;
  }

  /**
   * The tests that are closed now and ask for what a test finds, to be done after it; none where it
   * is done again, or may do harm.
   */
  List<Test> hangingOn(Test first) {
    List<Test> found = new ArrayList<>();
    Step one = device.steps.get(first.step());
    if (first.before().isPresent() || one.isAttempt()) {
      return found;
    }
    Set<PointId> read = new LinkedHashSet<>();
    DeviceModel.points(one).forEach(p -> read.add(p.id()));
    for (int s = 0; s < device.steps.size(); s++) {
      int here = costs.benchFor(bench, s);
      int ready = costs.benchFor(first.bench(), s);
      if (isTest(s)
          && ready >= 0
          && futures.asksAbout(s, first.step())
          && (here < 0 || !present.allows(s, 0, here))
          && !now.outcomes().containsKey(device.steps.get(s).id())) {
        test(s, first.bench(), ready, read).ifPresent(found::add);
      }
    }
    return found;
  }

  /** The repairs that ask for what a test finds. */
  Set<Integer> hangingOn(int test) {
    Set<Integer> found = new LinkedHashSet<>();
    double[] pPresent = masses.pPresent();
    for (int s : model.repairs) {
      if (futures.asksAbout(s, test) && mayBePlanned(s, pPresent)) {
        found.add(s);
      }
    }
    return found;
  }

  private boolean isTest(int s) {
    Step step = device.steps.get(s);
    return !device.sight(s).isEmpty() && step.changes().isEmpty() && step.swap().isEmpty();
  }

  /** A test as it would be done from a bench, with what has been read before it. */
  private Optional<Test> test(int s, int from, int ready, Set<PointId> read) {
    Step step = device.steps.get(s);
    OutcomeId before = now.outcomes().get(step.id());
    boolean isRepeat =
        before != null
            || step.compares().filter(c -> isRead(c.point()) && isRead(c.with())).isPresent();
    boolean looks =
        step.shows().isPresent() && (!isRepeat || step.copies() < 1 && step.pinTable().isEmpty());
    List<Point> unread = unread(step);
    unread.removeIf(p -> read.contains(p.id()));
    Optional<Seen> seen =
        looks ? Optional.ofNullable(before).map(Seen.Shown::new) : Optional.empty();
    double cost = costs.ofStep(s) + costs.ofWay(from, s);
    return model.sight(s, looks, unread).map(sight -> new Test(s, sight, seen, cost, ready));
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
   * @param first those to plan with before others, even where it takes two tests to open them
   */
  List<Integer> chooseRepairs(Set<Integer> first) {
    double[] pPresent = masses.pPresent();
    List<Integer> found = new ArrayList<>();
    List<Integer> closed = new ArrayList<>();
    double[] promise = new double[device.steps.size()];
    for (int s = 0; s < device.steps.size(); s++) {
      if (!mayBePlanned(s, pPresent)) {
        continue;
      }
      int ready = costs.benchFor(bench, s);
      if (ready >= 0) {
        promise[s] = cures(s, pPresent) / Math.max(costs.ofStep(s) + costs.ofWay(bench, s), 1e-9);
        boolean isOpen = first.contains(s) || present.allows(s, 0, ready) || mayOpen(s, ready);
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
    found.sort(Comparator.comparing(s -> !first.contains(s)));
    leavesRepairsOut = found.size() > RepairSearch.MOST_REPAIRS;
    List<Integer> few =
        new ArrayList<>(found.subList(0, Math.min(found.size(), RepairSearch.MOST_REPAIRS)));
    few.sort(Comparator.naturalOrder());
    return few;
  }

  /** Whether a repair can be done at all and cures something that counts. */
  private boolean mayBePlanned(int s, double[] pPresent) {
    Step step = device.steps.get(s);
    return step.proves().isEmpty()
        && (!step.changes().isEmpty() || step.swap().isPresent())
        && (!now.done().contains(step.id()) || step.repeatable())
        && (inPlan.isPresent() ? inPlan.get().contains(s) : bearsOnLost(s, pPresent));
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
    for (Test test : tests()) {
      if (!futures.asksAbout(repair, test.step())) {
        continue;
      }
      for (Seen seen : test.sight().findings) {
        if (futures.after(test.step(), seen).allows(repair, 0, ready)) {
          return true;
        }
      }
    }
    return false;
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
}
