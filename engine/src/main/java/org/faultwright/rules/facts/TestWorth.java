package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/**
 * What a test is worth: what it saves, its cost taken off.
 *
 * @param worth in the shop's currency; not above 0: not worth doing
 * @param cost of doing it, getting the bench ready included
 */
public record TestWorth(StepId step, double worth, double cost) {

  /** Checks that the numbers are numbers. */
  public TestWorth {
    if (!Double.isFinite(worth) || !(cost >= 0)) {
      throw new IllegalArgumentException(
          "worth must be finite, cost not negative: " + worth + ", " + cost);
    }
  }
}
