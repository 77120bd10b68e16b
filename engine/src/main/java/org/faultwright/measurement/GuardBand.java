package org.faultwright.measurement;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How far inside a limit a reading must lie to be accepted: {@code w = r U} with the expanded
 * uncertainty {@code U = 2 u}.
 *
 * <p>By the reading alone: at r = 0 the limits are those of the reference itself, and what lies
 * just at one is as likely beyond it as not. At r = 1 it is beyond that limit with 2.3 %, at the
 * price of refusing more good ones. Below 0 only what is surely off is refused.
 *
 * @param factor r, the guard factor, finite
 * @param u standard uncertainty of the reading in SI units, finite, from 0
 * @see "JCGM 106:2012, 8.3"
 */
public record GuardBand(double factor, double u) {

  /** The coverage factor of an expanded uncertainty, about 95 % of a normal. */
  private static final double COVERAGE = 2;

  /** Checks the domains. */
  public GuardBand {
    if (!Double.isFinite(factor)) {
      throw new IllegalArgumentException("factor must be finite: " + factor);
    }
    if (!(u >= 0) || Double.isInfinite(u)) {
      throw new IllegalArgumentException("u must be finite and not negative: " + u);
    }
  }

  /** The distance between a limit and its acceptance limit, in SI units; above 0: inside. */
  public double width() {
    return factor * COVERAGE * u;
  }

  /**
   * The acceptance interval: where a reading must lie. Over-range stays as it is.
   *
   * @param normal whose limits are guarded; those of a tolerance are its two ends
   * @return empty where the guard bands of both limits meet: the reading is not sure enough to
   *     accept anything
   */
  public Optional<Reference> acceptance(Reference normal) {
    if (normal instanceof Reference.Around a) {
      double left = a.tolerance() - width();
      return left > 0
          ? Optional.of(new Reference.Around(a.dimension(), a.nominal(), left))
          : Optional.empty();
    } else if (normal instanceof Reference.Within w) {
      OptionalDouble low = moved(w.low(), width());
      OptionalDouble high = moved(w.high(), -width());
      return low.isEmpty() || high.isEmpty() || low.getAsDouble() < high.getAsDouble()
          ? Optional.of(
              new Reference.Within(w.dimension(), low, high, w.byFactor() && low.getAsDouble() > 0))
          : Optional.empty();
    }
    return Optional.of(normal);
  }

  /**
   * Whether a reading lies in the acceptance interval, its limits included.
   *
   * @throws IllegalArgumentException when the reading is of another dimension
   */
  public boolean accepts(Reference normal, ReadingValue value) {
    return acceptance(normal)
        .map(interval -> Conformance.probability(interval, value, 0) == 1)
        .orElse(false);
  }

  private static OptionalDouble moved(OptionalDouble limit, double by) {
    return limit.isEmpty() ? limit : OptionalDouble.of(limit.getAsDouble() + by);
  }
}
