package org.faultwright.planning;

/**
 * The cheapest way to end the job without a repair.
 *
 * @param cost in the shop's currency, closing up included
 */
public record Exit(Kind kind, double cost) {

  /** How the job ends. */
  public enum Kind {
    /** The device goes to other hands. */
    SEND_ON,
    /** The customer gets it back as it is. */
    RETURN
  }
}
