package org.faultwright.measurement;

import java.util.OptionalDouble;

/**
 * Where readings lie: the known-good value of a point, or the range of a state off normal. Values
 * in SI units.
 */
public sealed interface Reference {

  /** What kind of quantity it is. */
  Dimension dimension();

  /**
   * A nominal value with a tolerance.
   *
   * @param nominal the value of a typical good device
   * @param tolerance half-width, above 0, in the same unit: about 95 of 100 good devices lie within
   */
  record Around(Dimension dimension, double nominal, double tolerance) implements Reference {

    /** Checks the domain. */
    public Around {
      if (!Double.isFinite(nominal) || !(tolerance > 0) || !Double.isFinite(tolerance)) {
        throw new IllegalArgumentException(
            "tolerance must be finite and above 0: " + nominal + " +- " + tolerance);
      }
    }
  }

  /**
   * Limits, or one limit only.
   *
   * @param low lower limit; empty: none
   * @param high upper limit; empty: none
   */
  record Within(Dimension dimension, OptionalDouble low, OptionalDouble high) implements Reference {

    /** Checks that there is a limit and that they are in order. */
    public Within {
      if (low.isEmpty() && high.isEmpty()) {
        throw new IllegalArgumentException("limits must have a low or a high side");
      }
      if (low.isPresent() && high.isPresent() && !(low.getAsDouble() < high.getAsDouble())) {
        throw new IllegalArgumentException(
            "low must be below high: " + low.getAsDouble() + ", " + high.getAsDouble());
      }
    }
  }

  /** The instrument shows that the value is beyond its range. */
  record OverRange(Dimension dimension) implements Reference {}
}
