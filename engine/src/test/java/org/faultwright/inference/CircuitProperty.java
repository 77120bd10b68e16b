package org.faultwright.inference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** The circuit against summation over all assignments. */
class CircuitProperty {

  /** A few hundred additions and multiplications of numbers in [0, 1]. */
  private static final double ROUNDING = 1e-12;

  @Property(tries = 500)
  void everyMarginalIsThatOfBruteForce_whateverTheEvidence(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed);
    double[][] weights = randomWeights(plain, new Random(seed + 1));
    Evaluation evaluation = evaluated(plain, weights);
    double logP = evaluation.upward();
    double p = plain.sum(weights, -1, 0);
    if (p == 0) {
      assertThat(logP).isEqualTo(Double.NEGATIVE_INFINITY);
      return;
    }
    assertThat(logP).isCloseTo(Math.log(p), within(ROUNDING));
    evaluation.downward();
    for (int v = 0; v < plain.variables(); v++) {
      for (int s = 0; s < plain.states(v); s++) {
        assertThat(evaluation.marginal(v, s))
            .isCloseTo(plain.sum(weights, v, s) / p, within(ROUNDING));
      }
    }
  }

  @Property(tries = 300)
  void tinyWeightsChangeNothingButTheScale_whenTheyAreTheSameInAllStates(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed);
    double[][] weights = randomWeights(plain, new Random(seed + 1));
    double p = plain.sum(weights, -1, 0);
    if (p == 0) {
      return;
    }
    Evaluation evaluation = evaluated(plain, weights);
    for (int v = 0; v < plain.variables(); v++) {
      for (int s = 0; s < plain.states(v); s++) {
        evaluation.weigh(v, s, 1e-160);
      }
    }
    double scale = plain.variables() * Math.log(1e-160);
    assertThat(evaluation.upward()).isCloseTo(Math.log(p) + scale, within(1e-9));
    evaluation.downward();
    for (int v = 0; v < plain.variables(); v++) {
      assertThat(evaluation.marginal(v, 0))
          .isCloseTo(plain.sum(weights, v, 0) / p, within(ROUNDING));
    }
  }

  private static double[][] randomWeights(RandomModel plain, Random random) {
    double[][] weights = new double[plain.variables()][];
    for (int v = 0; v < weights.length; v++) {
      weights[v] = new double[plain.states(v)];
      int kind = random.nextInt(4);
      int only = random.nextInt(plain.states(v));
      for (int s = 0; s < weights[v].length; s++) {
        weights[v][s] = kind == 0 ? (s == only ? 1 : 0) : kind == 1 ? random.nextDouble() : 1;
      }
    }
    return weights;
  }

  private static Evaluation evaluated(RandomModel plain, double[][] weights) {
    Circuit circuit = (Circuit) CircuitCompiler.compile(plain.model(), 1e6);
    Evaluation evaluation = circuit.evaluation();
    for (int v = 0; v < weights.length; v++) {
      evaluation.weigh(v, weights[v]);
    }
    return evaluation;
  }
}
