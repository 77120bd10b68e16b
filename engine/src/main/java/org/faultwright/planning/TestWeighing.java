package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.StepId;
import org.faultwright.planning.CaseModel.Prospect;
import org.faultwright.planning.OpenSteps.Test;
import org.faultwright.planning.RepairSearch.Found;
import org.faultwright.planning.RepairTree.Belief;

/** What tests are worth beside the repairs that a search is about. */
final class TestWeighing {

  private final CaseModel model;
  private final DeviceModel device;
  private final Costs costs;
  private final int bench;
  private final Futures futures;
  private final Futures.Future present;
  private final WorldMasses masses;
  private final RepairSearch search;

  /**
   * Tests beside repairs.
   *
   * @param futures settled for the repairs that the search is about
   */
  TestWeighing(
      CaseModel model,
      Costs costs,
      int bench,
      Futures futures,
      WorldMasses masses,
      RepairSearch search) {
    this.model = model;
    this.device = model.device;
    this.costs = costs;
    this.bench = bench;
    this.futures = futures;
    this.masses = masses;
    this.search = search;
    present = futures.present();
  }

  /**
   * What a test is worth.
   *
   * @param without ECR0
   * @param toTheEnd what the policy that costs so much takes
   */
  Worth weigh(Test test, double without, Spend toTheEnd) {
    StepId id = device.steps.get(test.step()).id();
    Spend own = costs.spendOfWay(bench, test.step()).plus(costs.spendOfStep(test.step()));
    Prospect[] prospects = masses.prospects(test.sight());
    boolean isAttempt = device.steps.get(test.step()).isAttempt();
    boolean opens = opensSomething(test.step());
    if (!isAttempt && !opens && masses.tellsNothing(prospects)) {
      return new Worth(
          id, -test.cost(), false, test.cost(), Optional.of(toTheEnd.plus(own)), List.of());
    }
    if (!isAttempt && !opens) {
      masses.fill(search.start());
      double bound = without - test.cost() - search.leastWhereKnown(test.bench(), present);
      if (bound <= 0) {
        return new Worth(id, bound, true, test.cost(), Optional.empty(), List.of());
      }
    }
    List<Seen> findings = test.sight().findings;
    List<Worth.Branch> branches = new ArrayList<>(findings.size());
    double after = 0;
    Spend spend = own;
    for (int y = 0; y < findings.size(); y++) {
      Belief belief = search.start();
      masses.fill(belief, test, prospects, y);
      double pFinding = belief.total;
      if (pFinding <= 0) {
        continue;
      }
      Futures.Future future = opens ? futures.after(test.step(), findings.get(y)) : present;
      Found found = search.cheapest(test.bench(), future);
      after += found.cost();
      spend = spend.plus(search.spend(found.plan(), test.bench(), future));
      Optional<StepId> then =
          found.plan().length == 0
              ? Optional.empty()
              : Optional.of(device.steps.get(search.step(found.plan()[0])).id());
      branches.add(
          new Worth.Branch(findings.get(y), Math.min(1, pFinding), then, found.cost() / pFinding));
    }
    return new Worth(
        id, without - test.cost() - after, false, test.cost(), Optional.of(spend), branches);
  }

  private boolean opensSomething(int test) {
    for (int r = 0; r < search.size(); r++) {
      if (futures.asksAbout(search.step(r), test)) {
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
}
