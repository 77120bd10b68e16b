package org.faultwright.diagnosis;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Spend;
import org.faultwright.rules.StepStatus;

/**
 * A step as it stands in a case.
 *
 * @param status whether it is open, and if not, why
 * @param worth what it saves on the way to the end of the job, its own cost taken off, in the
 *     shop's currency; empty where it was not weighed (a step that is not open, a repair, a
 *     preparation)
 * @param cost of doing it now, getting the bench ready and the function tests of a repair included;
 *     empty where it was not weighed
 * @param toTheEnd what the job is expected to take from here to its end with this step now and no
 *     test after it; empty where it was not weighed, or is clearly not worth doing
 * @param outcomes how likely each of its outcomes is, for a step that shows outcomes
 */
public record Considered(
    StepId step,
    StepStatus status,
    OptionalDouble worth,
    OptionalDouble cost,
    Optional<Spend> toTheEnd,
    Map<OutcomeId, Double> outcomes) {

  /** Copies the map, keeping its order. */
  public Considered {
    outcomes = Ordered.copy(outcomes);
  }
}
