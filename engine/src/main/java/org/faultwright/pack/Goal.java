package org.faultwright.pack;

/** What the customer wants. */
public enum Goal {
  /** A working device. */
  WORKING,
  /** The data, whatever becomes of the device. */
  DATA_ONLY,
  /** A price first. */
  ESTIMATE
}
