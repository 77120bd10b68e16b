package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Harm;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Assessment.Testing;
import org.faultwright.planning.PlanNode.Spend;

/** Places of a plan, with what they take: the same costs as {@link Costs} adds up, kept apart. */
final class PlanSpending {

  private final DeviceModel device;
  private final Shop shop;
  private final CaseModel model;
  private final Costs costs;

  PlanSpending(Planner planner, Planner.Setting setting) {
    this.device = planner.device();
    this.shop = planner.shop();
    this.model = setting.model();
    this.costs = setting.costs();
  }

  PlanNode test(int bench, Testing test, double rest, List<PlanNode.Branch> branches) {
    Route.Way way = way(bench, test.step());
    Spend spend = spend(way).plus(spend(device.steps.get(test.step())));
    StepId id = device.steps.get(test.step()).id();
    return new PlanNode.DoTest(id, way.turns(), spend, spend.cost(shop) + rest, branches);
  }

  PlanNode repair(int bench, Repairing repair, double pPass, PlanNode ifPassed, PlanNode ifFailed) {
    Route.Way way = way(bench, repair.step());
    List<BenchState> turns = new ArrayList<>(way.turns());
    Spend spend = spend(way).plus(spend(device.steps.get(repair.step())));
    List<StepId> proofs = new ArrayList<>();
    int at = costs.benchFor(bench, repair.step());
    for (int proof : repair.proofs()) {
      int step = model.proofs.get(proof).step();
      if (step < 0) {
        spend = spend.plus(new Spend(shop.proof().minutes(), 0, 0, 0));
      } else {
        spend = spend.plus(spend(way(at, step))).plus(spend(device.steps.get(step)));
        at = costs.benchFor(at, step);
        proofs.add(device.steps.get(step).id());
      }
    }
    double rest = pPass * ifPassed.expectedCost() + (1 - pPass) * ifFailed.expectedCost();
    return new PlanNode.DoRepair(
        device.steps.get(repair.step()).id(),
        proofs,
        turns,
        spend,
        spend.cost(shop) + rest,
        pPass,
        ifPassed,
        ifFailed);
  }

  PlanNode handedOver(int bench, double pLost) {
    Spend spend = close(bench).plus(new Spend(0, 0, 0, pLost * costs.comeback));
    return new PlanNode.End(PlanNode.Ending.REPAIRED, spend, spend.cost(shop), pLost);
  }

  PlanNode exit(int bench) {
    Spend spend = close(bench).plus(new Spend(0, 0, costs.exitFee(), 0));
    PlanNode.Ending ending =
        costs.exit(bench).kind() == Exit.Kind.SEND_ON
            ? PlanNode.Ending.SENT_ON
            : PlanNode.Ending.RETURNED;
    return new PlanNode.End(ending, spend, spend.cost(shop), 0);
  }

  private Route.Way way(int bench, int step) {
    return (Route.Way) costs.ways.way(bench, costs.goal(step));
  }

  private Spend close(int bench) {
    return costs.wayToClose(bench).map(PlanSpending::spend).orElse(Spend.NOTHING);
  }

  private static Spend spend(Route.Way way) {
    return new Spend(minutes(way.hands()), minutes(way.waiting()), way.consumables(), 0);
  }

  private static double minutes(java.time.Duration d) {
    return d.toNanos() / 6e10;
  }

  private Spend spend(Step step) {
    double risk = 0;
    for (Harm harm : step.mayCause()) {
      risk += harm.chance().p() * harm.cost();
    }
    double parts =
        step.swap().map(s -> shop.priceOf(device.pack().parts().get(s.part()))).orElse(0.0);
    return new Spend(
        step.effort().handsMinutes(),
        step.effort().waitMinutes(),
        step.consumables() + parts,
        risk);
  }
}
