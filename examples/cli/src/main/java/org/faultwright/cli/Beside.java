package org.faultwright.cli;

import java.util.Optional;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.NoPlan;
import org.faultwright.diagnosis.PlanResult;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.RepairOrNot;

/** What stands beside a plan: whether a repair is worth it, and rules of thumb. */
record Beside(Diagnosis diagnosis, PlanResult result, PlanLimits limits, CompareOption comparing) {

  /** Of plans that only tell where a repair begins to pay. */
  private static final double ENOUGH = 0.02;

  /** Also where there is no plan because nothing pays at the stated value. */
  Optional<RepairOrNot> repairOrNot() {
    Optional<Plan> plan = result instanceof NoPlan.NotWorthIt none ? none.ending() : result.found();
    return plan.flatMap(p -> diagnosis.repairOrNot(p, coarser()));
  }

  Optional<PlanComparison> compared() {
    return result.found().flatMap(plan -> comparing.compare(diagnosis, plan));
  }

  /** Where the answer turns is found by further plans, which need not be as fine. */
  private PlanLimits coarser() {
    return new PlanLimits(
        limits.budget().dividedBy(4).plusMillis(1),
        limits.mostAhead(),
        Math.max(limits.leastP(), ENOUGH),
        limits.mostSteps(),
        limits.asIfAgreed());
  }
}
