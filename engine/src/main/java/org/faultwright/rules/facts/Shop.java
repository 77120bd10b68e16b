package org.faultwright.rules.facts;

import org.faultwright.casefile.Intake;
import org.faultwright.pack.Goal;
import org.faultwright.pack.ToolId;

/** What was settled at intake. */
public record Shop(Intake intake) {

  /** Whether the shop lacks a tool. */
  public boolean lacks(ToolId tool) {
    return intake.lacking().contains(tool);
  }

  /** Whether a step asks for more skill than there is at this bench. */
  public boolean lacksSkillFor(PackStep step) {
    return step.step().conditions().skill().map(s -> s.compareTo(intake.skill()) > 0).orElse(false);
  }

  /** Whether a step can lose data that cannot be replaced. */
  public boolean mayLoseData(PackStep step) {
    return intake.irreplaceableData() && step.step().dataRisk();
  }

  /** Whether there are data that cannot be replaced. */
  public boolean keepsData() {
    return intake.irreplaceableData();
  }

  /** What the customer wants. */
  public Goal goal() {
    return intake.goal();
  }
}
