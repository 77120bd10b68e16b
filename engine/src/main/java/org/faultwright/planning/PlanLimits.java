package org.faultwright.planning;

import java.time.Duration;

/**
 * How far a plan is worked out.
 *
 * <p>What is kept on the way is bounded too: some 200 MB at most, whatever the budget.
 *
 * @param budget the time that the plan may take, above zero; when it is up, branches are left at
 *     the step that comes next. The first step is weighed whatever the time. Of more worlds than
 *     the time allows for the least likely are left out, and the plan counts them
 * @param mostAhead steps to look ahead from each step of the plan, at most, from 0; 0 is the
 *     cheapest sequence of repairs without any test
 * @param leastP branches less likely than this, in (0, 1], are not followed
 * @param mostSteps steps on a branch that are followed, at least 1
 * @param asIfAgreed whether the customer is taken to agree to all that nobody has asked for yet;
 *     what has been refused stays refused
 */
public record PlanLimits(
    Duration budget, int mostAhead, double leastP, int mostSteps, boolean asIfAgreed) {

  /** One second, as far ahead as that allows, every branch of at least 1 %, up to 12 steps. */
  public static final PlanLimits ORDINARY = new PlanLimits(Duration.ofSeconds(1), 50, 0.01, 12);

  /** No limit that matters: the optimum where it can be found at all. */
  public static final PlanLimits EXACT = new PlanLimits(Duration.ofMinutes(10), 1000, 1e-12, 1000);

  /** Limits of a plan that keeps to what the customer has agreed to. */
  public PlanLimits(Duration budget, int mostAhead, double leastP, int mostSteps) {
    this(budget, mostAhead, leastP, mostSteps, false);
  }

  /** The same limits for a plan as if all were agreed to that nobody has asked for yet. */
  public PlanLimits ifAgreed() {
    return new PlanLimits(budget, mostAhead, leastP, mostSteps, true);
  }

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
