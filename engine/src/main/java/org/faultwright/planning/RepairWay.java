package org.faultwright.planning;

import java.util.List;
import org.faultwright.pack.StepId;

/**
 * A repair that could be done now, with the best that can follow without further tests.
 *
 * @param repair the first repair
 * @param proofs the function tests after it, in order; empty: the shop's own, without a step
 * @param expectedCost of the whole way, further repairs, closing up, comebacks and the end of the
 *     job included, in the shop's currency
 * @param toTheEnd the same kept apart, as expected
 * @param cost of the first repair alone, with its function tests and what both need of the bench
 * @param pPass P(the function tests pass after the first repair)
 * @param sequence the repairs in order, the first one included, each done where those before have
 *     not helped; where none helps, the job ends
 */
public record RepairWay(
    StepId repair,
    List<StepId> proofs,
    double expectedCost,
    Spend toTheEnd,
    double cost,
    double pPass,
    List<StepId> sequence) {

  /** Copies the lists. */
  public RepairWay {
    proofs = List.copyOf(proofs);
    sequence = List.copyOf(sequence);
  }
}
