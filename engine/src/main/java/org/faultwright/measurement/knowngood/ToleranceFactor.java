package org.faultwright.measurement.knowngood;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.numbers.rootfinder.BrentSolver;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The factor k of a statistical tolerance interval {@code mean +- k s} of a normal population with
 * unknown mean and deviation: with the stated confidence the interval holds at least the stated
 * part of the population.
 *
 * <p>Two-sided it is exact in the sense of ISO 16269-6:2014, Annex F (one sample): k solves
 *
 * <pre>INT phi(z) P(chi2(n-1) &gt;= (n-1) r(z)^2 / k^2) dz = confidence,
 * PHI(z/sqrt n + r(z)) - PHI(z/sqrt n - r(z)) = coverage</pre>
 *
 * <p>The integrand is smooth and falls as a normal density, so the trapezoidal rule converges
 * faster than any power of its step; at the step used here it is far below the error of the root, a
 * relative 1e-10.
 *
 * @see "D. B. Owen, Handbook of Statistical Tables, 1962; K. Krishnamoorthy and T. Mathew,
 *     Statistical Tolerance Regions, 2009, section 2.3"
 */
public final class ToleranceFactor {

  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /** Beyond this many standard deviations lies 1e-17 of a normal. */
  private static final double REACH = 8.5;

  private static final double STEP = 0.125;
  private static final int POINTS = (int) (REACH / STEP) + 1;
  private static final double TAIL = 1e-14;
  private static final int POINTS_ONE_SIDED = 400;
  private static final BrentSolver ROOT = new BrentSolver(1e-12, 1e-13, 1e-15);

  private final int n;
  private final double pConfidence;

  /** Squared half-widths r(z)^2 on the grid; it is even in z. */
  private final double[] squares = new double[POINTS];

  private ToleranceFactor(int n, double pCoverage, double pConfidence) {
    this.n = n;
    this.pConfidence = pConfidence;
    for (int i = 0; i < POINTS; i++) {
      double r = halfWidth(i * STEP / Math.sqrt(n), pCoverage);
      squares[i] = r * r;
    }
  }

  /**
   * The exact two-sided factor.
   *
   * @param n number of readings, at least 2
   * @param pCoverage part of the population, in (0, 1)
   * @param pConfidence in (0, 1)
   * @throws IllegalArgumentException when an argument is out of its domain
   */
  public static double twoSided(int n, double pCoverage, double pConfidence) {
    check(n, pCoverage, pConfidence);
    return new ToleranceFactor(n, pCoverage, pConfidence).solve(howe(n, pCoverage, pConfidence));
  }

  /**
   * The exact one-sided factor: {@code mean - k s}, or {@code mean + k s}, holds at least the part
   * on its side. It is a quantile of the noncentral t distribution, {@code k sqrt n}, here by
   * integrating over the logarithm of the deviation, where the density falls exponentially and the
   * trapezoidal rule is as good as above.
   *
   * @param n number of readings, at least 2
   * @param pCoverage part of the population, in (0, 1)
   * @param pConfidence in (0, 1)
   * @throws IllegalArgumentException when an argument is out of its domain
   */
  public static double oneSided(int n, double pCoverage, double pConfidence) {
    check(n, pCoverage, pConfidence);
    double nu = n - 1.0;
    double quantile = NORMAL.inverseCumulativeProbability(pCoverage) * Math.sqrt(n);
    ChiSquaredDistribution chi2 = ChiSquaredDistribution.of(nu);
    double from = Math.log(chi2.inverseCumulativeProbability(TAIL) / nu) / 2;
    double to = Math.log(chi2.inverseSurvivalProbability(TAIL) / nu) / 2;
    double[] deviations = new double[POINTS_ONE_SIDED];
    double[] weights = new double[POINTS_ONE_SIDED];
    for (int i = 0; i < POINTS_ONE_SIDED; i++) {
      deviations[i] = Math.exp(from + (to - from) * i / (POINTS_ONE_SIDED - 1));
      double square = nu * deviations[i] * deviations[i];
      weights[i] = chi2.density(square) * 2 * square * (to - from) / (POINTS_ONE_SIDED - 1);
    }
    DoubleUnaryOperator excess =
        k -> {
          double sum = 0;
          for (int i = 0; i < POINTS_ONE_SIDED; i++) {
            double z = k * Math.sqrt(n) * deviations[i] - quantile;
            sum += weights[i] * NORMAL.cumulativeProbability(z);
          }
          return sum - pConfidence;
        };
    double reach = 1;
    while (excess.applyAsDouble(reach) < 0 || excess.applyAsDouble(-reach) > 0) {
      reach *= 2;
    }
    return ROOT.findRoot(excess, -reach, reach);
  }

  /**
   * Howe's approximation (1969), the usual one of handbooks: some hundredths too large for few
   * readings, some thousandths too small for many. Here it says where to look for the exact one.
   */
  static double howe(int n, double pCoverage, double pConfidence) {
    double nu = n - 1.0;
    double z = NORMAL.inverseSurvivalProbability((1 - pCoverage) / 2);
    double chi2 = ChiSquaredDistribution.of(nu).inverseCumulativeProbability(1 - pConfidence);
    return z * Math.sqrt(nu * (1 + 1.0 / n) / chi2);
  }

  private double solve(double guess) {
    double low = guess;
    double high = guess;
    while (excess(low) > 0) {
      low *= 0.8;
    }
    while (excess(high) < 0) {
      high *= 1.25;
    }
    return low == high ? low : ROOT.findRoot(this::excess, low, high);
  }

  /** P(the interval with factor k holds enough) less the confidence wanted. */
  private double excess(double k) {
    double nu = n - 1.0;
    ChiSquaredDistribution chi2 = ChiSquaredDistribution.of(nu);
    double sum = 0;
    for (int i = 0; i < POINTS; i++) {
      double p = chi2.survivalProbability(nu * squares[i] / (k * k));
      sum += (i == 0 ? 1 : 2) * NORMAL.density(i * STEP) * p;
    }
    return sum * STEP - pConfidence;
  }

  /** Half the width of an interval about x, off the mean, that holds a part of a normal. */
  private static double halfWidth(double x, double pCoverage) {
    DoubleUnaryOperator excess = r -> NORMAL.probability(x - r, x + r) - pCoverage;
    double most = x + NORMAL.inverseSurvivalProbability((1 - pCoverage) / 2);
    return ROOT.findRoot(excess, 0, most * (1 + 1e-12));
  }

  private static void check(int n, double pCoverage, double pConfidence) {
    if (n < 2) {
      throw new IllegalArgumentException("n must be at least 2: " + n);
    }
    ReferencePolicy.checkInside("pCoverage", pCoverage);
    ReferencePolicy.checkInside("pConfidence", pConfidence);
  }
}
