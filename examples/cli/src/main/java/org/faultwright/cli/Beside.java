package org.faultwright.cli;

import java.util.Optional;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.NoPlan;
import org.faultwright.diagnosis.PlanResult;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.RepairOrNot;

/**
 * What stands beside a plan.
 *
 * @param repairOrNot whether a repair is worth it; also where there is no plan because nothing pays
 *     at the stated value
 * @param compared the plan beside rules of thumb, where that is asked for
 */
record Beside(Optional<RepairOrNot> repairOrNot, Optional<PlanComparison> compared) {

  /** Of plans that only tell where a repair begins to pay. */
  private static final double ENOUGH = 0.02;

  static Beside of(
      Diagnosis diagnosis, PlanResult result, PlanLimits limits, CompareOption comparing) {
    Optional<Plan> plan = result instanceof NoPlan.NotWorthIt none ? none.ending() : result.found();
    return new Beside(
        plan.flatMap(p -> diagnosis.repairOrNot(p, coarser(limits))),
        result.found().flatMap(p -> comparing.compare(diagnosis, p)));
  }

  /** Where the answer turns is found by further plans, which need not be as fine. */
  private static PlanLimits coarser(PlanLimits limits) {
    return new PlanLimits(
        limits.budget().dividedBy(4).plusMillis(1),
        limits.mostAhead(),
        Math.max(limits.leastP(), ENOUGH),
        limits.mostSteps(),
        limits.asIfAgreed());
  }
}
