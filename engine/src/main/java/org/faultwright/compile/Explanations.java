package org.faultwright.compile;

import java.util.List;
import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Ordered;

/**
 * The most probable sets of causes: what is present now and nothing else.
 *
 * @param sets the most probable first; fewer than asked for where no more are possible
 * @param isExact false where the search was given up, so that a likelier set may be missing
 */
public record Explanations(List<Explanation> sets, boolean isExact) {

  /** Copies the list. */
  public Explanations {
    sets = List.copyOf(sets);
  }

  /**
   * A set of causes.
   *
   * @param causes the causes, in pack order; empty where nothing is wrong
   * @param p P(exactly these causes are present now | facts)
   */
  public record Explanation(Set<CauseId> causes, double p) {

    /** Copies the set, keeping its order. */
    public Explanation {
      causes = Ordered.copy(causes);
    }
  }
}
