package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.StepId;

/**
 * An attempt made.
 *
 * @param touched the causes that it touches
 */
public record Attempted(FactId id, StepId step, Set<CauseId> touched) {

  /** Whether it can have moved what depends on the given causes. */
  public boolean moves(Set<CauseId> ancestors) {
    for (CauseId cause : touched) {
      if (ancestors.contains(cause)) {
        return true;
      }
    }
    return false;
  }
}
