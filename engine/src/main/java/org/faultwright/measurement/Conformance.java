package org.faultwright.measurement;

import java.util.OptionalDouble;

/**
 * How far a reading by itself says that the true value keeps to its reference.
 *
 * @param pConforms probability that the true value keeps to the reference
 * @param inside whether the reading itself does, its uncertainty aside
 * @param accepted whether it lies in the acceptance interval of the guard band in use; where there
 *     is none, the same as {@code inside}
 * @param measured whether there is a number with an uncertainty: over-range and what is only named
 *     keep to a reference or do not
 * @see "JCGM 106:2012, clauses 7 and 8"
 */
public record Conformance(double pConforms, boolean inside, boolean accepted, boolean measured) {

  /** Between this and its complement a reading counts as near a limit. */
  private static final double P_NEAR_LIMIT = 0.05;

  /** One standard uncertainty inside one limit: PHI(1), to two digits. */
  private static final double P_CLEARER_THAN_NOT = 0.84;

  /** What can be said of a reading. */
  public enum Verdict {
    /** It keeps to the reference. */
    IN,
    /** It does, by less than its uncertainty. */
    JUST_IN,
    /** It is about as likely in as out. */
    TOO_CLOSE,
    /** It does not, by less than its uncertainty. */
    JUST_OUT,
    /** It does not keep to the reference. */
    OUT
  }

  /**
   * The conformance of a reading.
   *
   * @param normal what is normal at the point
   * @param guard the guard band in use, with the standard uncertainty of the reading
   * @throws IllegalArgumentException when the reading is of another dimension
   */
  public static Conformance of(Reference normal, ReadingValue value, GuardBand guard) {
    boolean inside = probability(normal, value, 0) == 1;
    return new Conformance(
        probability(normal, value, guard.u()),
        inside,
        guard.factor() == 0 ? inside : guard.accepts(normal, value),
        value instanceof ReadingValue.Measured
            && !(normal instanceof Reference.OverRange)
            && guard.u() > 0);
  }

  /** What can be said of it, by the probability alone. */
  public Verdict verdict() {
    if (!measured) {
      return inside ? Verdict.IN : Verdict.OUT;
    }
    double pRight = inside ? pConforms : 1 - pConforms;
    if (pRight < P_CLEARER_THAN_NOT) {
      return Verdict.TOO_CLOSE; // also in the midst of limits that the meter is too coarse for
    } else if (pRight < 1 - P_NEAR_LIMIT) {
      return inside ? Verdict.JUST_IN : Verdict.JUST_OUT;
    }
    return inside ? Verdict.IN : Verdict.OUT;
  }

  /** Whether the reading is too close to a limit to be sure: between 5 % and 95 %. */
  public boolean nearLimit() {
    return pConforms > P_NEAR_LIMIT && pConforms < 1 - P_NEAR_LIMIT;
  }

  /**
   * Probability that the true value keeps to the reference, from the reading alone: {@code
   * PHI((high - y)/u) - PHI((low - y)/u)}. The limits of a tolerance are its two ends. Over-range
   * keeps to a reference that is over-range, and to a resistance without an upper limit.
   *
   * @param u standard uncertainty of the reading in SI units, from 0
   * @throws IllegalArgumentException when the reading is of another dimension
   * @see "JCGM 106:2012, clause 7"
   */
  static double probability(Reference normal, ReadingValue value, double u) {
    ReadingModel.expect(normal.dimension(), value.kind(), value.toString());
    ReadingModel.checkUncertainty("u", u);
    if (value instanceof ReadingValue.Named named) {
      return named.state().equals(ReadingModel.NORMAL) ? 1 : 0;
    }
    OptionalDouble low = low(normal);
    OptionalDouble high = high(normal);
    if (value instanceof ReadingValue.OverRange) {
      boolean open = high.isEmpty() && normal.dimension() == Dimension.RESISTANCE;
      return normal instanceof Reference.OverRange || open ? 1 : 0;
    }
    if (low.isEmpty() && high.isEmpty()) {
      return 0;
    }
    double y = ((ReadingValue.Measured) value).quantity().si();
    double roomBelow = y - low.orElse(Double.NEGATIVE_INFINITY);
    double roomAbove = high.orElse(Double.POSITIVE_INFINITY) - y;
    if (u == 0) {
      return roomBelow >= 0 && roomAbove >= 0 ? 1 : 0;
    }
    // Of the two equal forms the one that subtracts the smaller numbers.
    return roomAbove < roomBelow
        ? StateDensity.phi(roomAbove / u) - StateDensity.phi(-roomBelow / u)
        : StateDensity.phi(roomBelow / u) - StateDensity.phi(-roomAbove / u);
  }

  private static OptionalDouble low(Reference normal) {
    return normal instanceof Reference.Around a
        ? OptionalDouble.of(a.nominal() - a.tolerance())
        : normal instanceof Reference.Within w ? w.low() : OptionalDouble.empty();
  }

  private static OptionalDouble high(Reference normal) {
    return normal instanceof Reference.Around a
        ? OptionalDouble.of(a.nominal() + a.tolerance())
        : normal instanceof Reference.Within w ? w.high() : OptionalDouble.empty();
  }
}
