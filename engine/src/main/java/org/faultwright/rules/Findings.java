package org.faultwright.rules;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.StepId;

/**
 * What the first firing concludes from the facts. Immutable; everything is in the order of the pack
 * or of telling.
 *
 * @param standings for each fact whether it counts
 * @param conflicts facts that do not go together
 * @param holds holds in force
 * @param lifted holds that would be in force had they not been lifted
 * @param alarms what is going on and must end at once
 * @param steps for each step of the pack whether it is open
 * @param turns for each position that a switch can be turned to whether that is allowed
 * @param bench the position of each switch
 * @param closed whether every switch that must be off in a closed device is off
 * @param situation what conditions ask about
 * @param attempts the attempts made so far
 */
public record Findings(
    List<Standing> standings,
    List<Conflict> conflicts,
    List<HoldInForce> holds,
    Set<HoldId> lifted,
    List<Alarm> alarms,
    Map<StepId, StepStatus> steps,
    Map<BenchState, TurnStatus> turns,
    Set<BenchState> bench,
    boolean closed,
    Situation situation,
    Attempts attempts) {

  /** Copies the collections, keeping their order. */
  public Findings {
    standings = List.copyOf(standings);
    conflicts = List.copyOf(conflicts);
    holds = List.copyOf(holds);
    lifted = Ordered.copy(lifted);
    alarms = List.copyOf(alarms);
    steps = Ordered.copy(steps);
    turns = Ordered.copy(turns);
    bench = Ordered.copy(bench);
  }

  /** The standing of a fact; empty: no such fact has been told. */
  public Optional<Standing> standing(FactId fact) {
    return standings.stream().filter(s -> s.id().equals(fact)).findFirst();
  }

  /**
   * The status of a step.
   *
   * @throws IllegalArgumentException when the pack has no such step
   */
  public StepStatus step(StepId step) {
    StepStatus status = steps.get(step);
    if (status == null) {
      throw new IllegalArgumentException("step must be one of the pack: " + step);
    }
    return status;
  }

  /** Whether the step may be done now; false for a step that the pack lacks. */
  public boolean isOpen(StepId step) {
    StepStatus status = steps.get(step);
    return status != null && status.isOpen();
  }

  /**
   * Whether a switch may be turned into the position now, as far as holds and consent go; false
   * where it cannot be turned that way at all.
   */
  public boolean mayTurn(BenchState target) {
    TurnStatus status = turns.get(target);
    return status != null && status.isPermitted();
  }
}
