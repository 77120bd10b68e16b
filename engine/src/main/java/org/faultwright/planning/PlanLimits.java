package org.faultwright.planning;

import java.time.Duration;

/**
 * How far a plan is worked out.
 *
 * @param budget the time that looking ahead may take, above zero; the plan is then written down
 *     with what has been found, which takes some time of its own
 * @param mostAhead steps to look ahead from each step of the plan, at most, from 0; 0 is the
 *     cheapest sequence of repairs without any test
 * @param leastP branches less likely than this, in (0, 1], are not followed
 * @param mostSteps steps on a branch that are followed, at least 1
 */
public record PlanLimits(Duration budget, int mostAhead, double leastP, int mostSteps) {

  /** One second, as far ahead as that allows, every branch of at least 1 %, up to 12 steps. */
  public static final PlanLimits ORDINARY = new PlanLimits(Duration.ofSeconds(1), 50, 0.01, 12);

  /** No limit that matters: the optimum where it can be found at all. */
  public static final PlanLimits EXACT = new PlanLimits(Duration.ofMinutes(10), 1000, 1e-12, 1000);

  /** Checks the domains. */
  public PlanLimits {
    require(!budget.isZero() && !budget.isNegative(), "budget must be above zero: " + budget);
    require(mostAhead >= 0, "mostAhead must not be negative: " + mostAhead);
    require(leastP > 0 && leastP <= 1, "leastP must be in (0, 1]: " + leastP);
    require(mostSteps >= 1, "mostSteps must be at least 1: " + mostSteps);
  }

  private static void require(boolean met, String rule) {
    if (!met) {
      throw new IllegalArgumentException(rule);
    }
  }
}
