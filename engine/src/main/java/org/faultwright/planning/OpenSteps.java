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
        found.add(new Test(s, sight.get(), seen, cost, ready));
      }
    }
    return found;
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
  List<Integer> chooseRepairs(OptionalInt also) {
    double[] pPresent = masses.pPresent();
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
    leavesRepairsOut = found.size() > RepairSearch.MOST_REPAIRS;
    List<Integer> few =
        new ArrayList<>(found.subList(0, Math.min(found.size(), RepairSearch.MOST_REPAIRS)));
    few.sort(Comparator.naturalOrder());
    return few;
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
