package org.faultwright.diagnosis;

import java.util.Optional;
import org.faultwright.planning.Plan;

/**
 * What comes of planning a case: a plan with a step to begin with, or why there is no such step,
 * and what would open one.
 */
public sealed interface PlanResult permits PlanResult.Planned, NoPlan {

  /** The plan; empty where there is none. */
  default Optional<Plan> found() {
    return this instanceof Planned planned ? Optional.of(planned.plan()) : Optional.empty();
  }

  /** There is a plan. */
  record Planned(Plan plan) implements PlanResult {}
}
