package org.faultwright.planning;

import java.util.List;
import java.util.Optional;
import org.faultwright.pack.StepId;

/**
 * What a test is worth: how much less the job is expected to cost with it than without any test,
 * its own cost taken off. See {@code semantics.md}, Cost. All money is in the shop's currency.
 *
 * @param worth the worth; where {@code atMost}, an upper bound that is not above 0
 * @param atMost whether only a bound is known: even perfect knowledge would not pay for the test
 * @param cost of doing it, getting the bench ready included
 * @param toTheEnd what the whole job is expected to take with it and no test after it; empty where
 *     {@code atMost}
 * @param branches what may come out, in the pack's order; empty where {@code atMost}
 */
public record Worth(
    StepId step,
    double worth,
    boolean atMost,
    double cost,
    Optional<Spend> toTheEnd,
    List<Branch> branches) {

  /** Copies the branches. */
  public Worth {
    branches = List.copyOf(branches);
  }

  /**
   * One way in which a test may come out.
   *
   * @param p how likely it is
   * @param thenRepair the repair that would be best then, without further tests; empty: to end the
   *     job, or to do a test first
   * @param thenTest the test that would be done first, where only this one opens it; empty: none
   * @param expectedCost what the rest of the job would be expected to cost then
   */
  public record Branch(
      Seen seen,
      double p,
      Optional<StepId> thenRepair,
      Optional<StepId> thenTest,
      double expectedCost) {}
}
