package org.faultwright.measurement;

import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Where readings lie: the known-good value of a point, or the range of a state off normal. Values
 * in SI units.
 */
public sealed interface Reference {

  /** P(a good device lies above its reference), and as much below. */
  double P_BEYOND = 0.025;

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

    /**
     * What to expect of another good device after some: the mean, and as tolerance the half-width
     * of the interval that the next one lies in with 95 %, {@code t(n-1) s sqrt(1 + 1/n)}. Few
     * samples make it wide. The density is then the normal with that interval, where a prediction
     * has the tails of Student's t; readings far out are those of the floor either way.
     *
     * @param samples one reading of each of at least two good devices, in SI units, not all equal
     * @see "G. J. Hahn and W. Q. Meeker, Statistical Intervals, 1991, chapter 4: prediction
     *     interval for a single future observation"
     */
    public static Around predicting(Dimension dimension, List<Double> samples) {
      int n = samples.size();
      if (n < 2) {
        throw new IllegalArgumentException("samples must be two or more: " + n);
      }
      double mean = samples.stream().sorted().mapToDouble(x -> x).sum() / n;
      double squares = samples.stream().sorted().mapToDouble(x -> (x - mean) * (x - mean)).sum();
      double t = TDistribution.of(n - 1).inverseSurvivalProbability(P_BEYOND);
      return new Around(dimension, mean, t * Math.sqrt(squares / (n - 1)) * Math.sqrt(1 + 1.0 / n));
    }
  }

  /**
   * Limits, or one limit only.
   *
   * @param low lower limit; empty: none
   * @param high upper limit; empty: none
   * @param byFactor whether values are spread about the middle of the decades between the limits
   *     (log-normal, about 95 of 100 good devices lie within), as leakage, capacitances and
   *     resistances over decades are; else evenly
   */
  record Within(Dimension dimension, OptionalDouble low, OptionalDouble high, boolean byFactor)
      implements Reference {

    /** Spread evenly. */
    public Within(Dimension dimension, OptionalDouble low, OptionalDouble high) {
      this(dimension, low, high, false);
    }

    /**
     * Within a factor either way.
     *
     * @param nominal the typical value in SI units, above 0
     * @param factor above 1
     */
    public static Within ofFactor(Dimension dimension, double nominal, double factor) {
      return new Within(
          dimension,
          OptionalDouble.of(nominal / factor),
          OptionalDouble.of(nominal * factor),
          true);
    }

    /** Checks that there is a limit and that they are in order. */
    public Within {
      if (low.isEmpty() && high.isEmpty()) {
        throw new IllegalArgumentException("limits must have a low or a high side");
      }
      if (low.isPresent() && high.isPresent() && !(low.getAsDouble() < high.getAsDouble())) {
        throw new IllegalArgumentException(
            "low must be below high: " + low.getAsDouble() + ", " + high.getAsDouble());
      }
      if (byFactor && !(low.orElse(0) > 0 && high.isPresent())) {
        throw new IllegalArgumentException("a factor must have both limits above 0");
      }
    }
  }

  /** The instrument shows that the value is beyond its range. */
  record OverRange(Dimension dimension) implements Reference {}
}
