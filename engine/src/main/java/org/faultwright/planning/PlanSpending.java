package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Assessment.Testing;

/** Places of a plan, with what they take: the same costs as {@link Costs} adds up, kept apart. */
final class PlanSpending {

  private final DeviceModel device;
  private final Shop shop;
  private final CaseModel model;
  private final Costs costs;

  PlanSpending(Planner planner, CaseModel model, Costs costs) {
    this.device = planner.device();
    this.shop = planner.shop();
    this.model = model;
    this.costs = costs;
  }

  PlanNode test(int bench, Testing test, double rest, List<PlanNode.Branch> branches) {
    Route.Way way = costs.way(bench, test.step());
    Spend spend = costs.spendOfWay(bench, test.step()).plus(costs.spendOfStep(test.step()));
    StepId id = device.steps.get(test.step()).id();
    return new PlanNode.DoTest(id, way.turns(), spend, spend.cost(shop) + rest, branches);
  }

  PlanNode repair(int bench, Repairing repair, double pPass, PlanNode ifPassed, PlanNode ifFailed) {
    List<BenchState> turns = new ArrayList<>(costs.way(bench, repair.step()).turns());
    Spend spend = costs.spendOfWay(bench, repair.step()).plus(costs.spendOfStep(repair.step()));
    List<StepId> proofs = new ArrayList<>();
    int at = costs.benchFor(bench, repair.step());
    for (int proof : repair.proofs()) {
      int step = model.proofs.get(proof).step();
      if (step < 0) {
        spend = spend.plus(costs.spendOfProof());
      } else {
        spend = spend.plus(costs.spendOfWay(at, step)).plus(costs.spendOfStep(step));
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
    Spend spend = costs.spendOfClosing(bench).plus(new Spend(0, 0, 0, pLost * costs.comeback));
    return new PlanNode.End(PlanNode.Ending.REPAIRED, spend, spend.cost(shop), pLost);
  }

  PlanNode.End exit(int bench) {
    Spend spend = costs.spendOfExit(bench);
    PlanNode.Ending ending =
        costs.exit(bench).kind() == Exit.Kind.SEND_ON
            ? PlanNode.Ending.SENT_ON
            : PlanNode.Ending.RETURNED;
    double lost = ending == PlanNode.Ending.RETURNED ? costs.exitFee() : 0;
    return new PlanNode.End(ending, spend, spend.cost(shop), 0, lost);
  }
}
