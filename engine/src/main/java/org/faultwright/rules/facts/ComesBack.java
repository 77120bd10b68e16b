package org.faultwright.rules.facts;

import org.faultwright.pack.ComplaintId;

/**
 * How likely a function comes back lost once the device is in use again: with nothing hidden any
 * longer, and everything that comes and goes showing itself.
 *
 * @param p P(it comes back lost | all facts)
 */
public record ComesBack(ComplaintId complaint, double p) {

  /** Whether p is at least one half. */
  public boolean moreLikelyThanNot() {
    return p >= 0.5;
  }

  /** Checks the domain. */
  public ComesBack {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("p must be in [0, 1]: " + p);
    }
  }
}
