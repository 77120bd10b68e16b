package org.faultwright.oracle;

import java.util.Arrays;

/**
 * Weights of the states of one variable, solved so that history leaves its stated probabilities as
 * they are.
 *
 * <p>Where the history is {@code r}, state {@code j} has probability {@code w_j k_rj / sum_i w_i
 * k_ri}, with the factors k. Averaged over histories each state must have the probability that is
 * stated for it. That is the scaling of a matrix to given row and column sums, and repeating {@code
 * w_j *= stated_j / found_j} reaches it (R. Sinkhorn, Amer. Math. Monthly 74, 1967, 402-405).
 */
final class BaseWeights {

  private static final int MOST_ROUNDS = 200_000;
  private static final double CLOSE_ENOUGH = 1e-15;

  private BaseWeights() {}

  /**
   * The weights, up to a common factor.
   *
   * @param pHistory probability of each combination of histories
   * @param factor for each combination and each state, what the history multiplies its weight by
   * @param pStated probability of each state; they sum to 1
   */
  static double[] solve(double[] pHistory, double[][] factor, double[] pStated) {
    double[] weights = pStated.clone();
    double distance = Double.POSITIVE_INFINITY;
    for (int round = 0; round < MOST_ROUNDS; round++) {
      double[] found = average(pHistory, factor, weights);
      double apart = 0;
      for (int j = 0; j < weights.length; j++) {
        if (pStated[j] > 0) {
          apart = Math.max(apart, Math.abs(found[j] / pStated[j] - 1));
          weights[j] *= pStated[j] / found[j];
        }
      }
      if (apart < CLOSE_ENOUGH || (apart < 1e-13 && apart >= distance)) {
        return weights;
      }
      distance = apart;
    }
    throw new IllegalStateException("no weights found for " + Arrays.toString(pStated));
  }

  /** The probability of each state, averaged over histories. */
  static double[] average(double[] pHistory, double[][] factor, double[] weights) {
    double[] mean = new double[weights.length];
    for (int r = 0; r < pHistory.length; r++) {
      double[] p = given(factor[r], weights);
      for (int j = 0; j < mean.length; j++) {
        mean[j] += pHistory[r] * p[j];
      }
    }
    return mean;
  }

  /** The probability of each state where the history has these factors. */
  static double[] given(double[] factor, double[] weights) {
    double[] p = new double[weights.length];
    double sum = 0;
    for (int j = 0; j < p.length; j++) {
      p[j] = weights[j] * factor[j];
      sum += p[j];
    }
    for (int j = 0; j < p.length; j++) {
      p[j] /= sum;
    }
    return p;
  }
}
