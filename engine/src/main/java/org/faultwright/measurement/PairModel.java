package org.faultwright.measurement;

import org.faultwright.measurement.Reference.Around;

/**
 * What readings of two points that should read alike say of whether they do: two lines of one pair,
 * two phases of one supply. Beside what each reading says by itself this sees how far they lie
 * apart, which is sharper: what shifts both alike, in the device or in the instrument, cancels.
 *
 * <p>Let d be how far the true value of a point lies from its nominal value. Where both points are
 * normal and alike, d of the first and of the second are jointly normal, each with its own standard
 * deviation and their difference with that of the pair (half of what it may differ by). Where they
 * are normal and apart, one of the two, either as often, is normal, and the other differs from it
 * by more than the pair may, by little likelier than by much. In all other states of the points
 * they are independent. The instrument's own errors come on top: a common one as an offset, to be
 * summed over by the caller, the rest as independent noise.
 *
 * <p>Everything is given as a ratio to what the readings say where they are independent, so that it
 * is weighed on top of that. State 0: one of the points is not normal (always 1); state 1: both
 * normal and alike; state 2: both normal and apart. Each reading may be misread as in {@link
 * ReadingModel}, so no ratio is 0. Immutable and thread-safe; some hundred error functions.
 */
public final class PairModel {

  private static final double P_READ = 1 - ReadingModel.P_MISREAD;

  private final Side first;
  private final Side second;
  private final double covariance;
  private final double limit;
  private final StateDensity above;
  private final StateDensity below;

  private record Side(ReadingModel model, double nominal, double sd) {

    /** Density of a reading of the normal point, with noise, if it is not misread. */
    double own(Reading r) {
      return bell(r.value - nominal - r.offset, sd * sd + r.noise * r.noise);
    }

    double all(Reading r) {
      return model.likelihood(new ReadingModel.Taken(r.value, 1, 0), r.offset, r.noise)[0];
    }

    double apart(Reading r) {
      return r.value - r.offset - nominal;
    }
  }

  /**
   * A reading of one of the points, or the mean of several.
   *
   * @param value in SI units
   * @param offset the instrument's error as far as it is known, in SI units
   * @param noise standard uncertainty that is left, in SI units, from 0
   */
  public record Reading(double value, double offset, double noise) {}

  private PairModel(Side first, Side second, double differsBy) {
    this.first = first;
    this.second = second;
    this.limit = differsBy;
    double sd = differsBy / 2;
    this.covariance = (first.sd * first.sd + second.sd * second.sd - sd * sd) / 2;
    this.above = TypicalDensities.beyond(differsBy);
    this.below = TypicalDensities.beyond(-differsBy);
  }

  /**
   * Whether a pair may differ by so much: less than two readings that have nothing to do with each
   * other, and more than their tolerances differ.
   */
  public static boolean makesSense(Around first, Around second, double differsBy) {
    return differsBy > Math.abs(first.tolerance() - second.tolerance())
        && differsBy < Math.hypot(first.tolerance(), second.tolerance());
  }

  /**
   * The model of a pair.
   *
   * @param first the reading model of a point whose reference is {@code ofFirst}
   * @param differsBy half-width in SI units: of 100 good devices about 95 differ by less
   * @throws IllegalArgumentException when the pair may not differ by so much, see {@link
   *     #makesSense}
   */
  public static PairModel of(
      ReadingModel first, Around ofFirst, ReadingModel second, Around ofSecond, double differsBy) {
    if (!makesSense(ofFirst, ofSecond, differsBy)) {
      throw new IllegalArgumentException(
          "differsBy must be above the difference of the tolerances, and below what independent"
              + " readings differ by: "
              + differsBy);
    }
    return new PairModel(
        new Side(first, ofFirst.nominal(), ofFirst.tolerance() / 2),
        new Side(second, ofSecond.nominal(), ofSecond.tolerance() / 2),
        differsBy);
  }

  /** The ratios for readings of both points. */
  public double[] ofBoth(Reading one, Reading other) {
    double all = first.all(one) * second.all(other);
    double own1 = first.own(one);
    double own2 = second.own(other);
    double alike = bothAlike(one, other);
    // what each reads if it is misread, with its probability
    double misread1 = Math.max(0, first.all(one) - P_READ * own1);
    double misread2 = Math.max(0, second.all(other) - P_READ * own2);
    double apart =
        P_READ * P_READ * bothApart(one, other)
            + P_READ * (oneApart(first, second, one) * misread2)
            + P_READ * (oneApart(second, first, other) * misread1)
            + misread1 * misread2;
    return new double[] {1, 1 + P_READ * P_READ * (alike - own1 * own2) / all, apart / all};
  }

  /**
   * Whether readings of both, taken as those of two normal points, speak for these being apart
   * rather than alike.
   */
  public boolean speaksForApart(Reading one, Reading other) {
    return bothApart(one, other) > bothAlike(one, other);
  }

  /**
   * The ratios for a reading of one of the points, where the other was not read.
   *
   * @param ofSecond whether it is the second
   */
  public double[] ofOne(boolean ofSecond, Reading reading) {
    Side side = ofSecond ? second : first;
    double apart = oneApart(side, ofSecond ? first : second, reading);
    return new double[] {1, 1, 1 + P_READ * (apart - side.own(reading)) / side.all(reading)};
  }

  /** An upper bound of the ratios for these readings, whatever their offsets. */
  public double mostOfBoth(Reading one, Reading other) {
    double least = leastOf(first, one) * leastOf(second, other);
    double v1 = first.sd * first.sd + one.noise * one.noise;
    double v2 = second.sd * second.sd + other.noise * other.noise;
    double alike = 1 / (2 * Math.PI * Math.sqrt(v1 * v2 - covariance * covariance));
    double apart = Math.max(peak(v1), peak(v2)) * above.peak(0);
    return mostOfOne(false, one) + mostOfOne(true, other) + (alike + apart) / least;
  }

  /** As {@link #mostOfBoth} for a reading of one point. */
  public double mostOfOne(boolean ofSecond, Reading reading) {
    Side side = ofSecond ? second : first;
    double v = side.sd * side.sd + reading.noise * reading.noise;
    return 2 + (peak(v) + above.peak(0)) / leastOf(side, reading);
  }

  private static double leastOf(Side side, Reading r) {
    return side.model.least(r.value);
  }

  /**
   * The smallest change of z over which the ratios change, where z moves the offsets of the two
   * readings by so much for each 1; infinite where it changes nothing.
   */
  public double finest(Reading one, double moves, Reading other, double otherMoves) {
    double v1 = first.sd * first.sd + one.noise * one.noise;
    double v2 = second.sd * second.sd + other.noise * other.noise;
    double precision =
        (moves * moves * v2 - 2 * moves * otherMoves * covariance + otherMoves * otherMoves * v1)
            / (v1 * v2 - covariance * covariance);
    double alike = 1 / Math.sqrt(Math.max(precision, 0));
    return Math.min(
        alike,
        Math.min(
            finestApart(first, one, moves, other, otherMoves),
            finestApart(second, other, otherMoves, one, moves)));
  }

  private double finestApart(
      Side normal, Reading of, double moves, Reading ofOff, double offMoves) {
    Given given = given(normal, of, ofOff);
    return Math.sqrt(given.variance + limit * limit / 4) / Math.abs(offMoves - given.slope * moves);
  }

  /** As {@link #finest} for a reading of one point. */
  public double finestOfOne(boolean ofSecond, Reading reading, double moves) {
    double other = ofSecond ? first.sd : second.sd;
    return Math.sqrt(other * other + reading.noise * reading.noise) / Math.abs(moves);
  }

  // The densities, each of readings that are not misread.

  private double bothAlike(Reading one, Reading other) {
    double v1 = first.sd * first.sd + one.noise * one.noise;
    double v2 = second.sd * second.sd + other.noise * other.noise;
    double slope = covariance / v1;
    double a = first.apart(one);
    return bell(a, v1) * bell(second.apart(other) - slope * a, v2 - slope * covariance);
  }

  private double bothApart(Reading one, Reading other) {
    return (firstNormal(first, one, second, other) + firstNormal(second, other, first, one)) / 2;
  }

  private double firstNormal(Side normal, Reading of, Side off, Reading ofOff) {
    Given given = given(normal, of, ofOff);
    return normal.own(of)
        * away(off.apart(ofOff) - given.slope * normal.apart(of), Math.sqrt(given.variance));
  }

  private record Given(double slope, double variance) {}

  /** What is known of the reading that is off, but for the difference, once the other is known. */
  private static Given given(Side normal, Reading of, Reading ofOff) {
    double own = normal.sd * normal.sd;
    double slope = own / (own + of.noise * of.noise);
    return new Given(slope, Math.max(0, own + ofOff.noise * ofOff.noise - slope * own));
  }

  private double oneApart(Side side, Side other, Reading r) {
    return (side.own(r) + away(side.apart(r), Math.hypot(other.sd, r.noise))) / 2;
  }

  private double away(double difference, double noise) {
    return (above.pdf(difference, noise) + below.pdf(difference, noise)) / 2;
  }

  private static double bell(double x, double variance) {
    return Math.exp(-x * x / variance / 2) / Math.sqrt(2 * Math.PI * variance);
  }

  private static double peak(double variance) {
    return 1 / Math.sqrt(2 * Math.PI * variance);
  }
}
