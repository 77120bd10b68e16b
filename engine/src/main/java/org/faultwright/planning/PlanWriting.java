package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.StepId;
import org.faultwright.planning.PlanPlace.Option;

/**
 * Writes down a plan from what a search knows, looking further ahead from each step as long as
 * there is time: each branch has its share of it. When the time is up, what is not known by then is
 * left at the step that comes next: where that is likely, by weighing the tests once more, and else
 * the first of the cheapest repairs.
 */
final class PlanWriting {

  private final PlanSearch search;
  private final PlanLimits limits;

  /** When all must be written down. */
  private final long end;

  private double pLeftOut;

  PlanWriting(PlanSearch search, PlanLimits limits, long end) {
    this.search = search;
    this.limits = limits;
    this.end = end;
  }

  /** The probability of what has been left out in what is written. */
  double pLeftOut() {
    return pLeftOut;
  }

  /**
   * Weighs step by step, from a place on, whatever the plan comes to and is likely enough: a plan
   * to begin with. The first step is weighed whatever the time.
   */
  void weigh(PlanPlace place, double p, int depth, long until) {
    if (p < Math.max(limits.leastP(), LIKELY)
        || depth >= Math.min(limits.mostSteps(), limits.mostAhead())
        || depth > 0 && System.nanoTime() > until
        || place.belief == null) {
      return;
    }
    search.weigh(place, depth == 0 ? Long.MAX_VALUE : until);
    if (place.choice instanceof PlanPlace.Take take) {
      Option taken = take.option();
      for (int y = 0; y < taken.then.length; y++) {
        if (taken.then[y] != null) {
          weigh(taken.then[y], p * taken.p[y], depth + 1, until);
        }
      }
      PlanSearch.update(place);
    }
  }

  /** Less likely branches are weighed only when they are written down. */
  private static final double LIKELY = 0.02;

  /**
   * The plan from a place.
   *
   * @param p P(the plan comes to it)
   * @param depth steps before it
   * @param until when the part below it must be written down
   */
  PlanNode from(PlanPlace place, double p, int depth, long until) {
    pLeftOut += p * (1 - place.part());
    boolean isFollowed = depth < limits.mostSteps() && p >= limits.leastP();
    long now = System.nanoTime();
    if (isFollowed && place.belief != null && now < until) {
      if (place.isExact()) {
        search.takeFirstOfEquals(place, until);
      } else {
        search.weigh(place, until);
        search.lookAhead(place, limits.mostAhead(), now + Math.round((until - now) * LOOKING));
      }
    }
    if (place.choice instanceof PlanPlace.HandOver over) {
      return spending(over.before()).handedOver(over.bench(), over.pLost());
    }
    PlanSpending spending = spending(place.scene);
    int bench = place.scene.bench;
    if (place.choice instanceof PlanPlace.Leave) {
      return spending.exit(bench);
    }
    Optional<Option> option = option(place, depth);
    if (!isFollowed || option.isEmpty()) {
      if (p >= LIKELY) {
        search.weigh(place, end); // else a repair would be named where a test is due
      }
      return new PlanNode.AndSoOn(place.cost, Optional.of(next(place)));
    }
    Option taken = option.get();
    List<PlanNode> then = new ArrayList<>();
    double before = 0;
    long start = System.nanoTime();
    for (int y = 0; y < taken.then.length; y++) {
      if (taken.then[y] == null) {
        then.add(null);
        continue;
      }
      before += taken.p[y];
      long share = start + Math.round(Math.max(0, until - start) * Math.min(1, before));
      then.add(from(taken.then[y], p * taken.p[y], depth + 1, share));
    }
    return taken.step.test().isPresent()
        ? test(spending, bench, taken, then)
        : repair(spending, bench, taken, then);
  }

  /** The part of the time of a branch that goes into looking ahead from where it begins. */
  private static final double LOOKING = 0.3;

  private StepId next(PlanPlace place) {
    return search.device().steps.get(PlanSearch.firstStep(place)).id();
  }

  /** The step to take; empty where it is not known where it leads and there is no time to see. */
  private Optional<Option> option(PlanPlace place, int depth) {
    if (place.choice instanceof PlanPlace.Take take) {
      return Optional.of(take.option());
    }
    if (depth > 0 && System.nanoTime() > end) {
      return Optional.empty();
    }
    int first = ((PlanPlace.Sequence) place.choice).first();
    return search.option(place, first);
  }

  private PlanSpending spending(PlanScene scene) {
    return new PlanSpending(search.planner(), scene.model, scene.costs);
  }

  private static PlanNode test(
      PlanSpending spending, int bench, Option taken, List<PlanNode> then) {
    double rest = 0;
    List<PlanNode.Branch> branches = new ArrayList<>();
    for (int y = 0; y < taken.then.length; y++) {
      if (then.get(y) != null) {
        rest += taken.p[y] * then.get(y).expectedCost();
        branches.add(
            new PlanNode.Branch(
                taken.step.test().orElseThrow().sight().findings.get(y), taken.p[y], then.get(y)));
      }
    }
    return spending.test(bench, taken.step.test().orElseThrow(), rest, branches);
  }

  private static PlanNode repair(
      PlanSpending spending, int bench, Option taken, List<PlanNode> then) {
    PlanNode passed = then.get(PlanWorlds.PASSED);
    PlanNode failed = then.get(PlanWorlds.FAILED);
    double pPass = failed == null ? 1 : passed == null ? 0 : taken.p[PlanWorlds.PASSED];
    return spending.repair(
        bench,
        taken.step.repair().orElseThrow(),
        pPass,
        passed == null ? spending.handedOver(taken.step.bench(), 0) : passed,
        failed == null ? passed : failed);
  }
}
