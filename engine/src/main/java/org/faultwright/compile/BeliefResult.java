package org.faultwright.compile;

import java.util.Set;
import org.faultwright.casefile.FactId;

/** What the facts of a case make one believe. */
public sealed interface BeliefResult
    permits Belief, BeliefResult.ImpossibleEvidence, BeliefResult.OverBudget {

  /**
   * The facts cannot all be true.
   *
   * @param clash a smallest set of facts that cannot hold together: without any one of them the
   *     rest of the set is possible
   */
  record ImpossibleEvidence(Set<FactId> clash) implements BeliefResult {}

  /**
   * The attempts and observations of this case make the network too wide for exact answers.
   *
   * @param predicted the number of table entries that compiling would make
   * @param budget the number that is allowed
   */
  record OverBudget(double predicted, double budget) implements BeliefResult {}
}
