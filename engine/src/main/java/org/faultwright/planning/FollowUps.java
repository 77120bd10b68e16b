package org.faultwright.planning;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.planning.CaseModel.Proof;
import org.faultwright.planning.OpenSteps.Test;

/**
 * Tests that are closed as long as another test has not been done: where that one finds something,
 * they may tell which repair is due, or open it. See {@code semantics.md}, Cost.
 */
final class FollowUps {

  private final CaseModel model;
  private final Costs costs;
  private final Futures futures;
  private final OpenSteps open;
  private final List<Integer> repairs;
  private final RepairSearch search;
  private final Map<Test, FollowUp> known = new HashMap<>();

  /**
   * A test to follow another.
   *
   * @param then done after the first, from the bench as that leaves it
   * @param search among the repairs that it opens, and others
   * @param futures settled for these
   * @param isBounded whether no finding of it changes how the repairs are proved, or ends the job
   */
  record FollowUp(Test then, RepairSearch search, Futures futures, boolean isBounded) {}

  /**
   * Follow-ups of tests.
   *
   * @param futures settled for the repairs that the search is about
   */
  FollowUps(
      CaseModel model,
      Costs costs,
      Futures futures,
      OpenSteps open,
      List<Integer> repairs,
      RepairSearch search) {
    this.model = model;
    this.costs = costs;
    this.futures = futures;
    this.open = open;
    this.repairs = repairs;
    this.search = search;
  }

  /** The tests that could follow a test and are closed without it. */
  List<Test> of(Test first) {
    return open.hangingOn(first);
  }

  /** What one of them may lead to. */
  FollowUp by(Test then) {
    return known.computeIfAbsent(then, this::find);
  }

  private FollowUp find(Test then) {
    Set<Integer> opened = open.hangingOn(then.step());
    boolean isBounded = model.device.steps.get(then.step()).proves().isEmpty();
    for (Proof proof : model.proofs) {
      isBounded &= proof.step() < 0 || !futures.asksAbout(proof.step(), then.step());
    }
    if (repairs.containsAll(opened)) {
      return new FollowUp(then, search, futures, isBounded);
    }
    List<Integer> with = open.chooseRepairs(opened);
    Futures ofThese = futures.alike();
    ofThese.settle(with.stream().mapToInt(Integer::intValue).toArray());
    return new FollowUp(then, model.search(costs, with), ofThese, isBounded);
  }
}
