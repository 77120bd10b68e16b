package org.faultwright.measurement.knowngood;

import org.apache.commons.statistics.distribution.BetaDistribution;

/**
 * Tolerance intervals that end at sorted readings, whatever the distribution. The part of the
 * population between the r-th smallest and the r-th largest of n is Beta(n+1-2r, 2r) distributed,
 * and the part above the r-th smallest Beta(n+1-r, r), if it is continuous, and larger if it is
 * not.
 *
 * @see "S. S. Wilks, Annals of Mathematical Statistics 12 (1941) 91; ISO 16269-6:2014, clause 6"
 */
final class DistributionFree {

  private DistributionFree() {}

  /**
   * P(at least the part lies between the rank-th smallest and the rank-th largest of n).
   *
   * @param sides 2, or 1 for the part that lies on one side of the rank-th
   */
  static double pConfidence(int n, int sides, int rank, double pCoverage) {
    return content(n, sides * rank).survivalProbability(pCoverage);
  }

  /** The part that lies between smallest and largest of n readings with the stated confidence. */
  static double pCoverage(int n, int sides, double pConfidence) {
    return content(n, sides).inverseSurvivalProbability(pConfidence);
  }

  /** The fewest readings of which smallest and largest hold the part with the confidence. */
  static int boardsNeeded(int sides, double pCoverage, double pConfidence) {
    int enough = 2;
    while (pConfidence(enough, sides, 1, pCoverage) < pConfidence) {
      enough *= 2;
    }
    int few = enough / 2; // too few, unless two are enough
    while (enough - few > 1) {
      int middle = (few + enough) / 2;
      if (middle >= 2 && pConfidence(middle, sides, 1, pCoverage) < pConfidence) {
        few = middle;
      } else {
        enough = middle;
      }
    }
    return Math.max(2, enough);
  }

  /** The largest rank that keeps the promise; 1 where not even that does. */
  static int rank(int n, int sides, double pCoverage, double pConfidence) {
    int rank = 1;
    while (2 * (rank + 1) < n && pConfidence(n, sides, rank + 1, pCoverage) >= pConfidence) {
      rank++;
    }
    return rank;
  }

  private static BetaDistribution content(int n, int outside) {
    if (outside < 1 || outside > n) {
      throw new IllegalArgumentException("rank must be in [1, n / sides]: " + outside + " of " + n);
    }
    return BetaDistribution.of(n + 1.0 - outside, outside);
  }
}
