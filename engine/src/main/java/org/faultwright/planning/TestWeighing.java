package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.CaseModel.Prospect;
import org.faultwright.planning.OpenSteps.Test;
import org.faultwright.planning.RepairSearch.Found;
import org.faultwright.planning.RepairTree.Belief;

/** What tests are worth beside the repairs that a search is about. */
final class TestWeighing {

  /** From this probability on that it is lost, a proved function is not relied on. */
  private static final double EVEN = 0.5;

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
    boolean opens = opensSomething(test.step());
    if (!device.steps.get(test.step()).isAttempt() && !opens && !mayEndTheJob(test)) {
      if (masses.tellsNothing(prospects)) {
        return new Worth(
            id, -test.cost(), false, test.cost(), Optional.of(toTheEnd.plus(own)), List.of());
      }
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
      boolean isBack = provesTheLast(test, findings.get(y)) && isReliedOn(belief);
      End end = isBack ? handOver(belief, test) : after(belief, test, y, opens);
      after += end.cost;
      spend = spend.plus(end.spend);
      branches.add(
          new Worth.Branch(
              findings.get(y), Math.min(1, pFinding), end.thenRepair, end.cost / pFinding));
    }
    return new Worth(
        id, without - test.cost() - after, false, test.cost(), Optional.of(spend), branches);
  }

  /** What the job takes after a finding, times its probability. */
  private record End(double cost, Spend spend, Optional<StepId> thenRepair) {}

  private End after(Belief belief, Test test, int finding, boolean opens) {
    Futures.Future future =
        opens ? futures.after(test.step(), test.sight().findings.get(finding)) : present;
    Found found = search.cheapest(test.bench(), future);
    int[] plan = found.plan();
    return new End(
        found.cost(),
        search.spend(plan, test.bench(), future),
        plan.length == 0
            ? Optional.empty()
            : Optional.of(device.steps.get(search.step(plan[0])).id()));
  }

  /** The device is closed and handed over, and comes back where a function is lost after all. */
  private End handOver(Belief belief, Test test) {
    double risk = model.tree.lost(belief) * costs.comeback;
    return new End(
        belief.total * costs.close(test.bench()) + risk,
        costs.spendOfClosing(test.bench()).times(belief.total).plus(new Spend(0, 0, 0, risk)),
        Optional.empty());
  }

  private boolean mayEndTheJob(Test test) {
    return test.sight().findings.stream().anyMatch(seen -> provesTheLast(test, seen));
  }

  /** Whether a finding proves the only function that is still lost. */
  private boolean provesTheLast(Test test, Seen seen) {
    Step step = device.steps.get(test.step());
    Seen shown = seen instanceof Seen.Both both ? both.shown() : seen;
    return model.lost.size() == 1
        && step.proves().filter(model.lost.get(0)::equals).isPresent()
        && device.passes(step).filter(shown::equals).isPresent();
  }

  /** Whether a function that is proved is more likely there than not, in use. */
  private boolean isReliedOn(Belief belief) {
    return model.tree.lost(belief) < EVEN * belief.total;
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
