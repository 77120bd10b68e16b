package org.faultwright.planning;

/**
 * How far ways of going about a job are compared.
 *
 * @param mostPlaces places at which a rule is asked what to do, the likeliest first, at least 1
 * @param devices devices to draw at random beside the exact figures, at least 2; or 0: none
 * @param seed the same seed draws the same devices
 */
public record ComparisonLimits(int mostPlaces, int devices, long seed) {

  /** 400 places, no devices. */
  public static final ComparisonLimits ORDINARY = new ComparisonLimits(400, 0, 1);

  /** Checks the domains. */
  public ComparisonLimits {
    if (mostPlaces < 1) {
      throw new IllegalArgumentException("mostPlaces must be at least 1: " + mostPlaces);
    }
    if (devices != 0 && devices < 2) {
      throw new IllegalArgumentException("devices must be 0 or at least 2: " + devices);
    }
  }
}
