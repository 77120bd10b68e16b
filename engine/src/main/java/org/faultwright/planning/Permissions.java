package org.faultwright.planning;

import java.util.Map;
import org.faultwright.casefile.Guard;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.StepId;

/**
 * What the rules allow, as the guards that they composed. Planning evaluates them in imagined
 * situations and has no permission logic of its own.
 *
 * @param steps for each step the condition under which it may be done, once the bench is ready; a
 *     step that is missing may never be done
 * @param turns for each position of a switch the condition under which the switch may be turned to
 *     it, once the other switches that the turn needs are right; a turn that is missing is never
 *     allowed
 */
public record Permissions(Map<StepId, Guard> steps, Map<BenchState, Guard> turns) {

  /** Copies the maps, keeping their order. */
  public Permissions {
    steps = Ordered.copy(steps);
    turns = Ordered.copy(turns);
  }
}
