package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/**
 * Concluded: a repair of a likely cause is held back for the customer's data alone, which cannot be
 * saved now.
 *
 * @param repair what could put the cause right, and can lose the data
 * @param likely P(the cause is present | all facts)
 */
public record DataInTheWay(StepId repair, double likely) {

  /** A repair that could put a likely cause right. */
  public static DataInTheWay of(StepId repair, Leader cause) {
    return new DataInTheWay(repair, cause.p());
  }
}
