package org.faultwright.rules.facts;

import org.faultwright.pack.ComplaintId;

/**
 * How likely a function is lost as the device is now.
 *
 * @param p P(function lost | all facts)
 */
public record FunctionLost(ComplaintId complaint, double p) {

  /** Whether p is at least one half. */
  public boolean moreLikelyThanNot() {
    return p >= 0.5;
  }

  /** Checks the domain. */
  public FunctionLost {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("p must be in [0, 1]: " + p);
    }
  }
}
