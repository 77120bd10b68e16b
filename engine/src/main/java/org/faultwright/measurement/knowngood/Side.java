package org.faultwright.measurement.knowngood;

/** On which sides a reference has limits. */
public enum Side {
  /** A value with its tolerance, or two limits. */
  BOTH,
  /** A lower limit alone. */
  AT_LEAST,
  /** An upper limit alone. */
  AT_MOST;

  /** How many limits there are. */
  int limits() {
    return this == BOTH ? 2 : 1;
  }
}
