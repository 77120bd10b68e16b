package org.faultwright.rules.facts;

import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;

/**
 * A reading as told, with what measurement makes of it.
 *
 * @param taken the reading
 * @param u its standard uncertainty in SI units; 0 beyond the range
 * @param state the state that it points to
 * @param nearLimit whether it lies so close to a limit that it counts for little
 * @param ruledOut how its setup differs from the one that the step states, in words
 */
public record ReadingTold(
    FactId id,
    Topic topic,
    Set<CauseId> ancestors,
    int epoch,
    StepId step,
    Fact.ReadingTaken taken,
    double u,
    StateId state,
    boolean nearLimit,
    Set<BenchState> needs,
    Optional<String> ruledOut)
    implements Observed {

  /** Whether this reading and an earlier one of the same point differ by more than they may. */
  public boolean apartFrom(ReadingTold earlier) {
    return Apart.differ(taken.value(), u, earlier.taken.value(), earlier.u);
  }
}
