package org.faultwright.measurement.knowngood;

import org.apache.commons.statistics.distribution.BetaDistribution;

/**
 * Tolerance intervals between two of the sorted readings, whatever the distribution. The part of
 * the population between the r-th smallest and the r-th largest of n is Beta(n+1-2r, 2r)
 * distributed, if it is continuous, and larger if it is not.
 *
 * @see "S. S. Wilks, Annals of Mathematical Statistics 12 (1941) 91; ISO 16269-6:2014, clause 6"
 */
final class DistributionFree {

  private DistributionFree() {}

  /** P(at least the part lies between the rank-th smallest and the rank-th largest of n). */
  static double pConfidence(int n, int rank, double pCoverage) {
    return content(n, rank).survivalProbability(pCoverage);
  }

  /** The part that lies between smallest and largest of n readings with the stated confidence. */
  static double pCoverage(int n, double pConfidence) {
    return content(n, 1).inverseSurvivalProbability(pConfidence);
  }

  /** The fewest readings of which smallest and largest hold the part with the confidence. */
  static int boardsNeeded(double pCoverage, double pConfidence) {
    int enough = 2;
    while (pConfidence(enough, 1, pCoverage) < pConfidence) {
      enough *= 2;
    }
    int few = enough / 2; // too few, unless two are enough
    while (enough - few > 1) {
      int middle = (few + enough) / 2;
      if (middle >= 2 && pConfidence(middle, 1, pCoverage) < pConfidence) {
        few = middle;
      } else {
        enough = middle;
      }
    }
    return Math.max(2, enough);
  }

  /** The largest rank that keeps the promise; 1 where not even that does. */
  static int rank(int n, double pCoverage, double pConfidence) {
    int rank = 1;
    while (2 * (rank + 1) < n && pConfidence(n, rank + 1, pCoverage) >= pConfidence) {
      rank++;
    }
    return rank;
  }

  private static BetaDistribution content(int n, int rank) {
    if (rank < 1 || 2 * rank > n) {
      throw new IllegalArgumentException("rank must be in [1, n / 2]: " + rank + " of " + n);
    }
    return BetaDistribution.of(n + 1.0 - 2 * rank, 2.0 * rank);
  }
}
