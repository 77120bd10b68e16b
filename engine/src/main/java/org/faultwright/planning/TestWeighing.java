package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.CaseModel.Prospect;
import org.faultwright.planning.FollowUps.FollowUp;
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
  private final FollowUps followUps;

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
      RepairSearch search,
      FollowUps followUps) {
    this.model = model;
    this.device = model.device;
    this.costs = costs;
    this.bench = bench;
    this.futures = futures;
    this.masses = masses;
    this.search = search;
    this.followUps = followUps;
    present = futures.present();
  }

  /**
   * What a test is worth with no test after it.
   *
   * @param without ECR0
   * @param toTheEnd what the policy that costs so much takes
   */
  Worth weigh(Test test, double without, Spend toTheEnd) {
    return weigh(test, without, toTheEnd, List.of());
  }

  /** The same with one of the tests after it that only it opens, if it opens any. */
  Optional<Worth> weighFollowed(Test test, double without, Spend toTheEnd) {
    List<Test> follow = followUps.of(test);
    return follow.isEmpty()
        ? Optional.empty()
        : Optional.of(weigh(test, without, toTheEnd, follow));
  }

  private Worth weigh(Test test, double without, Spend toTheEnd, List<Test> follow) {
    StepId id = device.steps.get(test.step()).id();
    Spend own = costs.spendOfWay(bench, test.step()).plus(costs.spendOfStep(test.step()));
    Prospect[] prospects = masses.prospects(test.sight());
    boolean opens = opensSomething(test.step());
    if (!device.steps.get(test.step()).isAttempt()
        && !opens
        && !mayEndTheJob(test)
        && follow.isEmpty()) {
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
      Seen seen = findings.get(y);
      Futures.Future future = opens ? futures.after(test.step(), seen) : present;
      End end = isBack ? handOver(belief, test) : withRepairs(search, test, future);
      if (!isBack && !follow.isEmpty()) {
        end = followedUp(test, prospects, y, pFinding, follow, end);
      }
      after += end.cost;
      spend = spend.plus(end.spend);
      branches.add(
          new Worth.Branch(
              seen, Math.min(1, pFinding), end.thenRepair, end.thenTest, end.cost / pFinding));
    }
    return new Worth(
        id, without - test.cost() - after, false, test.cost(), Optional.of(spend), branches);
  }

  private static boolean isLess(double a, double b) {
    return a < b - RepairSearch.ROUNDING * Math.abs(b);
  }

  /** What the job takes after a finding, times its probability, and what is done first. */
  private record End(
      double cost, Spend spend, Optional<StepId> thenRepair, Optional<StepId> thenTest) {}

  private static final End NONE =
      new End(Double.POSITIVE_INFINITY, Spend.NOTHING, Optional.empty(), Optional.empty());

  /** The cheapest sequence of repairs for what is believed after a test. */
  private End withRepairs(RepairSearch among, Test test, Futures.Future future) {
    Found found = among.cheapest(test.bench(), future);
    int[] plan = found.plan();
    return new End(
        found.cost(),
        among.spend(plan, test.bench(), future),
        plan.length == 0
            ? Optional.empty()
            : Optional.of(device.steps.get(among.step(plan[0])).id()),
        Optional.empty());
  }

  /** What is cheapest after a finding: what is known to be, or one of the tests to follow. */
  private End followedUp(
      Test test, Prospect[] prospects, int finding, double pFinding, List<Test> follow, End known) {
    Futures.Future after = futures.after(test.step(), test.sight().findings.get(finding));
    End best = known;
    for (Test then : follow) {
      if (pFinding * then.cost() < best.cost && after.allows(then.step(), 0, then.bench())) {
        FollowUp by = followUps.by(then);
        End other = followedUp(test, prospects, finding, pFinding, by, best.cost);
        best = isLess(other.cost, best.cost) ? other : best;
      }
    }
    return best;
  }

  /** A finding, then a test that only it opens, then repairs; infinite where that is no cheaper. */
  private End followedUp(
      Test test, Prospect[] prospects, int finding, double pFinding, FollowUp follow, double best) {
    Test then = follow.then();
    Futures.Future here = follow.futures().after(test.step(), test.sight().findings.get(finding));
    double cost = pFinding * then.cost();
    RepairSearch among = follow.search();
    if (follow.isBounded()) {
      masses.fill(among.start(), test, prospects, finding);
      if (cost + among.leastWhereKnown(then.bench(), here) >= best) {
        return NONE;
      }
    }
    Prospect[] both = masses.prospects(test.sight(), then.sight());
    Spend spend = costs.spendOfWay(test.bench(), then.step()).plus(costs.spendOfStep(then.step()));
    spend = spend.times(pFinding);
    List<Seen> findings = then.sight().findings;
    for (int z = 0; z < findings.size() && cost < best; z++) {
      Belief belief = among.start();
      masses.fill(belief, then, both, finding * findings.size() + z);
      if (belief.total > 0) {
        boolean isBack = provesTheLast(then, findings.get(z)) && isReliedOn(belief);
        End end =
            isBack
                ? handOver(belief, then)
                : withRepairs(among, then, here.after(then.step(), findings.get(z)));
        cost += end.cost;
        spend = spend.plus(end.spend);
      }
    }
    StepId next = device.steps.get(then.step()).id();
    return new End(cost, spend, Optional.empty(), Optional.of(next));
  }

  /** The device is closed and handed over, and comes back where a function is lost after all. */
  private End handOver(Belief belief, Test test) {
    double risk = model.tree.lost(belief) * costs.comeback;
    return new End(
        belief.total * costs.close(test.bench()) + risk,
        costs.spendOfClosing(test.bench()).times(belief.total).plus(new Spend(0, 0, 0, risk)),
        Optional.empty(),
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
