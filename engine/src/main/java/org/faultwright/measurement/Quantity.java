package org.faultwright.measurement;

/**
 * A value with its unit.
 *
 * @param si the value in the unit of {@code dimension}, finite
 */
public record Quantity(double si, Dimension dimension) {

  /** Checks that the value is finite. */
  public Quantity {
    if (!Double.isFinite(si)) {
      throw new IllegalArgumentException("value must be finite: " + si);
    }
  }
}
