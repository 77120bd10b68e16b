package org.faultwright.rules.facts;

import org.faultwright.casefile.FactId;
import org.faultwright.pack.StepId;

/**
 * A reading that lies on a limit could be taken again.
 *
 * @param fact the reading
 * @param step the step in which it is taken
 * @param worth what taking it again is worth, its cost taken off; not above 0: it does not matter
 */
public record Reread(FactId fact, StepId step, double worth) {

  /** Checks that the worth is a number. */
  public Reread {
    if (!Double.isFinite(worth)) {
      throw new IllegalArgumentException("worth must be finite: " + worth);
    }
  }
}
