package org.faultwright.rules.facts;

/**
 * The cheapest way to end the job without a repair.
 *
 * @param cost of it, closing up included
 * @param bySendingOn whether that is to send the device on
 */
public record Exit(double cost, boolean bySendingOn) {

  /** Checks the domain. */
  public Exit {
    if (!(cost >= 0)) {
      throw new IllegalArgumentException("cost must not be negative: " + cost);
    }
  }
}
