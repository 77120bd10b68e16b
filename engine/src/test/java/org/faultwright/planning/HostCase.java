package org.faultwright.planning;

import java.util.List;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.diagnosis.NoPlan;
import org.faultwright.diagnosis.PlanResult;
import org.faultwright.oracle.Facts;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;

/**
 * A case planned as a host plans it: an engine for the shop, a diagnosis, facts, {@link
 * Diagnosis#plan}.
 */
final class HostCase {

  private HostCase() {}

  /** Opens a case in which {@code complaint} is reported. */
  static Diagnosis open(Pack pack, Shop shop) {
    Diagnosis diagnosis = Engine.forShop(shop).open(pack, Intake.PLAIN);
    diagnosis.tell(Facts.reported("complaint"));
    return diagnosis;
  }

  static PlanResult result(Pack pack, Shop shop, PlanLimits limits, Fact... facts) {
    try (Diagnosis diagnosis = open(pack, shop)) {
      List.of(facts).forEach(diagnosis::tell);
      return diagnosis.plan(limits);
    }
  }

  /** The plan, also where it is to end the job at once. */
  static Plan plan(Pack pack, Shop shop, PlanLimits limits, Fact... facts) {
    PlanResult result = result(pack, shop, limits, facts);
    return result.found().or(() -> ((NoPlan) result).ending()).orElseThrow();
  }

  static Fact seen(String step, String outcome) {
    return new Fact.OutcomeSeen(new StepId(step), new OutcomeId(outcome));
  }

  /** The step at a place of a plan; empty at its ends. */
  static String step(PlanNode node) {
    if (node instanceof PlanNode.DoTest test) {
      return test.step().value();
    }
    return node instanceof PlanNode.DoRepair repair ? repair.step().value() : "";
  }

  /** What a plan goes on with after an outcome of a test. */
  static PlanNode after(PlanNode test, String outcome) {
    return ((PlanNode.DoTest) test)
        .branches().stream()
            .filter(b -> b.seen().equals(new Seen.Shown(new OutcomeId(outcome))))
            .findFirst()
            .orElseThrow()
            .then();
  }
}
