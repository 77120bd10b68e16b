package org.faultwright.measurement.knowngood;

/**
 * What references are to hold, and how strict the tests on the readings are.
 *
 * @param pCoverage part of all good boards whose readings lie within a reference, in [0.5, 0.9999]
 * @param pConfidence how often the method keeps that promise, in [0.5, 0.9999]
 * @param pSignificance how often a pin of good and normal readings is taken for not normal, or one
 *     of its readings for an outlier, in (0, 0.5]
 * @param dropsOutliers whether outliers are left out of the reference; they are named either way
 */
public record ReferencePolicy(
    double pCoverage, double pConfidence, double pSignificance, boolean dropsOutliers) {

  /**
   * 95 % of good boards with 95 % confidence: the tolerance of a pack means 95 of 100 good devices.
   * Tests at 1 %, because a table has many pins: at 5 % one would cry wolf on three of sixty.
   */
  public static final ReferencePolicy USUAL = new ReferencePolicy(0.95, 0.95, 0.01, false);

  /** Checks the domains. */
  public ReferencePolicy {
    checkPromise("pCoverage", pCoverage);
    checkPromise("pConfidence", pConfidence);
    if (!(pSignificance > 0 && pSignificance <= 0.5)) {
      throw new IllegalArgumentException("pSignificance must be in (0, 0.5]: " + pSignificance);
    }
  }

  /** Less than a half is no promise, and more would take a hundred thousand boards. */
  private static void checkPromise(String name, double p) {
    if (!(p >= 0.5 && p <= 0.9999)) {
      throw new IllegalArgumentException(name + " must be in [0.5, 0.9999]: " + p);
    }
  }

  static void checkInside(String name, double p) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException(name + " must be in (0, 1): " + p);
    }
  }
}
