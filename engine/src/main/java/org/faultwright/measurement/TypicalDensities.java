package org.faultwright.measurement;

import java.util.OptionalDouble;
import org.faultwright.measurement.Reference.Around;
import org.faultwright.measurement.Reference.OverRange;
import org.faultwright.measurement.Reference.Within;
import org.faultwright.measurement.StateDensity.Mixture;

/**
 * Densities of the true value of a point: those that a reference states, and those that the names
 * open, short, low and high mean where the author says no more. What is not a definition here is
 * common practice, no source.
 */
final class TypicalDensities {

  /** P(over-range | open): the rest reads higher than normal through parallel paths. */
  private static final double P_OVER_WHEN_OPEN = 0.9;

  /** P(over-range | high): high and open have no sharp border. */
  private static final double P_OVER_WHEN_HIGH = 0.05;

  /** P(over-range | at least so many ohms): insulation in order often is beyond the range. */
  private static final double P_OVER_WHEN_NO_UPPER_LIMIT = 0.5;

  /** A short reads at most a few hundredths of the normal value: the leads and the joint. */
  private static final double SHORT_PART = 0.02;

  /** Each box next to a limit is this many times wider than the one before... */
  private static final double WIDER = 4;

  /** ...and has this part of what the nearer ones left. The tail then falls as x^-2. */
  private static final double NEARER_PART = 0.75;

  /** Number of boxes: the last reaches a million widths away, and the floor lies under all. */
  private static final int BOXES = 11;

  /** Density at the limit times the width of the first box: the sum of a geometric series. */
  private static final double AT_LIMIT = NEARER_PART / (1 - (1 - NEARER_PART) / WIDER);

  /** Density of a normal at two standard deviations, times that standard deviation. */
  private static final double AT_TWO_SIGMA = Math.exp(-2) / Math.sqrt(2 * Math.PI);

  private final Reference normal;
  private final Dimension dimension;
  private final OptionalDouble low;
  private final OptionalDouble high;
  private final double size;

  /** Softness of the limits: a reference with a tolerance has no sharp edge. */
  private final double blur;

  /** Density of the normal state at its lower limit. */
  private final double atLow;

  /** Density of the normal state at its upper limit. */
  private final double atHigh;

  TypicalDensities(Reference normal) {
    this.normal = normal;
    this.dimension = normal.dimension();
    if (normal instanceof Around a) {
      low = OptionalDouble.of(a.nominal() - a.tolerance());
      high = OptionalDouble.of(a.nominal() + a.tolerance());
      size = nonZero(Math.abs(a.nominal()));
      blur = a.tolerance() / 2;
      // Half of a neighbour that starts at the limit lies on this side of it once it is blurred.
      atLow = 2 * AT_TWO_SIGMA / blur;
      atHigh = atLow;
    } else if (normal instanceof Within w) {
      low = w.low();
      high = w.high();
      size = nonZero(Math.max(Math.abs(low.orElse(0)), Math.abs(high.orElse(0))));
      blur = 0;
      double even =
          low.isPresent() && high.isPresent()
              ? 1 / (high.getAsDouble() - low.getAsDouble())
              : high.isPresent() && hasFloor(high.getAsDouble())
                  ? 1 / high.getAsDouble()
                  : AT_LIMIT / size;
      atLow = w.byFactor() ? AT_TWO_SIGMA / (low.getAsDouble() * spread(w)) : even;
      atHigh = w.byFactor() ? AT_TWO_SIGMA / (high.getAsDouble() * spread(w)) : even;
    } else {
      low = OptionalDouble.empty();
      high = OptionalDouble.empty();
      size = dimension.typical();
      blur = 0;
      atLow = AT_LIMIT / size;
      atHigh = atLow;
    }
  }

  /** Standard deviation of the logarithm: the limits lie two of them from the middle. */
  private static double spread(Within w) {
    return Math.log(w.high().getAsDouble() / w.low().getAsDouble()) / 4;
  }

  /** The yardstick of this point, above 0: the normal value, or an everyday one. */
  double size() {
    return size;
  }

  /** The middle of the normal range, or its only limit; 0 where over-range is normal. */
  double centre() {
    double l = low.orElse(high.orElse(0));
    return (l + high.orElse(l)) / 2;
  }

  OptionalDouble low() {
    return low;
  }

  OptionalDouble high() {
    return high;
  }

  /** The density of a state whose range is stated. */
  StateDensity stated(Reference reference) {
    if (reference instanceof Around a) {
      return new Mixture(0).bell(a.nominal(), a.tolerance() / 2);
    }
    if (!(reference instanceof Within w)) {
      return Mixture.overRange();
    }
    if (w.byFactor()) {
      double middle = Math.log(w.low().getAsDouble()) + 2 * spread(w);
      return new Mixture(0).logBell(middle, spread(w));
    }
    if (w.low().isPresent() && w.high().isPresent()) {
      return new Mixture(0).box(w.low().getAsDouble(), w.high().getAsDouble(), 0);
    }
    if (w.high().isPresent()) {
      double limit = w.high().getAsDouble();
      return hasFloor(limit)
          ? new Mixture(0).box(0, limit, 0)
          : away(new Mixture(0), limit, -nonZero(Math.abs(limit)), 0);
    }
    double limit = w.low().getAsDouble();
    double pOver = dimension == Dimension.RESISTANCE ? P_OVER_WHEN_NO_UPPER_LIMIT : 0;
    return away(new Mixture(pOver), limit, nonZero(Math.abs(limit)), 0);
  }

  /** Whether {@link #named} knows the state for this reference. */
  boolean knows(String state) {
    boolean electrical =
        dimension != Dimension.TEMPERATURE
            && dimension != Dimension.TIME
            && dimension != Dimension.FREQUENCY;
    return switch (state) {
      case "open", "short" -> electrical;
      case "low" -> low.isPresent() || normal instanceof OverRange;
      case "high" -> high.isPresent();
      default -> false;
    };
  }

  /**
   * The density of one of the four common states.
   *
   * <ul>
   *   <li>open: over-range mostly, else above normal. No current flows and no capacitance is left
   *       where the line is open, so there it is near 0.
   *   <li>short: near 0; for a current, above normal; for a capacitance, over-range mostly.
   *   <li>low: between 0 and the lower limit, likelier near the limit; below the limit where that
   *       is not above 0; any value at all where over-range is normal.
   *   <li>high: above the upper limit, likelier near it, over-range at times.
   * </ul>
   *
   * <p>At a limit, low and high are as dense as normal by construction, so that a reading just
   * there speaks for neither.
   */
  StateDensity named(String state) {
    boolean flows = dimension == Dimension.CURRENT;
    boolean stores = dimension == Dimension.CAPACITANCE;
    return switch (state) {
      case "open" -> flows || stores ? nearZero() : above(P_OVER_WHEN_OPEN);
      case "short" -> flows ? above(0) : stores ? above(P_OVER_WHEN_OPEN) : nearZero();
      case "low" -> below();
      case "high" -> above(flows ? 0 : P_OVER_WHEN_HIGH);
      default -> throw new IllegalArgumentException("no typical range is known: " + state);
    };
  }

  private StateDensity nearZero() {
    double first = SHORT_PART * (centre() < 0 ? -size : size);
    return new Mixture(0).part(0.6, 0, first, 0).box(0, WIDER * first, 0);
  }

  private StateDensity above(double pOver) {
    double limit = high.orElse(low.orElse(0));
    return away(new Mixture(pOver), limit, AT_LIMIT / atHigh, blur);
  }

  /**
   * A difference beyond the limit, on the side of its sign. At the limit it is, for both sides
   * together, as dense as a normal that has the limit at two standard deviations.
   */
  static StateDensity beyond(double limit) {
    double blur = Math.abs(limit) / 2;
    double width = AT_LIMIT * blur / (4 * AT_TWO_SIGMA);
    return away(new Mixture(0), limit, Math.copySign(width, limit), blur);
  }

  private StateDensity below() {
    if (low.isEmpty()) {
      return away(new Mixture(0), 0, size, 0);
    }
    double limit = low.getAsDouble();
    if (!hasFloor(limit)) {
      return away(new Mixture(0), limit, -AT_LIMIT / atLow, blur);
    }
    if (atLow * limit < 1) {
      // The limit is so wide that a plain box would be denser than normal: leave the rest deeper.
      return new Mixture(0).part(atLow * limit, 0, limit, blur).box(0, limit / 2, 0);
    }
    double width = AT_LIMIT / atLow;
    Mixture mixture = new Mixture(0);
    while (width < limit) {
      mixture.part(NEARER_PART, limit, limit - width, blur);
      width *= WIDER;
    }
    return mixture.box(0, limit, blur);
  }

  /** Likelier near the limit than far from it; the sign of the width says on which side. */
  private static StateDensity away(Mixture mixture, double limit, double width, double blur) {
    double reach = width;
    for (int i = 1; i < BOXES; i++) {
      mixture.part(NEARER_PART, limit, limit + reach, blur);
      reach *= WIDER;
    }
    return mixture.box(limit, limit + reach, blur);
  }

  /** Whether values below a limit end at 0: nothing but a temperature lies below by itself. */
  private boolean hasFloor(double limit) {
    return limit > 0 && dimension != Dimension.TEMPERATURE;
  }

  private double nonZero(double value) {
    return value > 0 ? value : dimension.typical();
  }
}
