package org.faultwright.planning;

import java.util.LinkedHashSet;
import java.util.Set;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;

/**
 * What a condition asks about that may change in an imagined future: only where one of these
 * changes does a guard have to be evaluated anew.
 */
final class GuardReferences {

  /** Steps whose outcome, or whose having been done, is asked for. */
  final Set<StepId> steps = new LinkedHashSet<>();

  final Set<PointId> points = new LinkedHashSet<>();
  final Set<ComplaintId> complaints = new LinkedHashSet<>();
  final Set<ConsentId> consents = new LinkedHashSet<>();

  final Set<SwitchId> switches = new LinkedHashSet<>();

  GuardReferences(Condition condition) {
    add(condition);
  }

  private void add(Condition condition) {
    if (condition instanceof Condition.All c) {
      c.parts().forEach(this::add);
    } else if (condition instanceof Condition.Any c) {
      c.parts().forEach(this::add);
    } else if (condition instanceof Condition.Not c) {
      add(c.part());
    } else if (condition instanceof Condition.Unless c) {
      add(c.part());
    } else if (condition instanceof Condition.OutcomeIs c) {
      steps.add(c.step());
    } else if (condition instanceof Condition.Done c) {
      steps.add(c.step());
    } else if (condition instanceof Condition.ReadingIs c) {
      points.add(c.point());
    } else if (condition instanceof Condition.Reproduced c) {
      complaints.add(c.complaint());
    } else if (condition instanceof Condition.Works c) {
      complaints.add(c.complaint());
    } else if (condition instanceof Condition.Consented c) {
      consents.add(c.consent());
    } else if (condition instanceof Condition.BenchIs c) {
      switches.add(c.state().of());
    }
  }
}
