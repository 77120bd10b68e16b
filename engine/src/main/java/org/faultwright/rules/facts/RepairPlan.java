package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/**
 * A way to repair the device, by its first step.
 *
 * @param step the first repair; open, or not open for lack of consent alone
 * @param expectedCost of the whole way, closing up, further repairs and comebacks included
 * @param pPass P(the function test passes after the first repair)
 * @param aboveCeiling whether it would cost more than the customer will pay
 */
public record RepairPlan(StepId step, double expectedCost, double pPass, boolean aboveCeiling) {

  /** Checks the domain. */
  public RepairPlan {
    if (!(pPass >= 0 && pPass <= 1)) {
      throw new IllegalArgumentException("pPass must be in [0, 1]: " + pPass);
    }
    if (!(expectedCost >= 0)) {
      throw new IllegalArgumentException("expectedCost must not be negative: " + expectedCost);
    }
  }
}
