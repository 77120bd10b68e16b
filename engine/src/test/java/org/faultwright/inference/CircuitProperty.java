package org.faultwright.inference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** The circuit against summation over all assignments, and its ways of evaluation against it. */
class CircuitProperty {

  /** A few hundred additions and multiplications of numbers in [0, 1]. */
  private static final double ROUNDING = 1e-12;

  @Property(tries = 500)
  void everyMarginalIsThatOfBruteForce_whateverTheEvidence(@ForAll long seed) {
    sameAsBruteForce(new RandomModel(seed), seed);
  }

  @Property(tries = 8)
  void everyMarginalIsThatOfBruteForce_upToEighteenVariables(@ForAll long seed) {
    sameAsBruteForce(new RandomModel(seed, 15 + (int) (Math.abs(seed % 4))), seed);
  }

  private static void sameAsBruteForce(RandomModel plain, long seed) {
    double[][] weights = plain.randomWeights(new Random(seed + 1));
    RandomModel.Summed expected = plain.sum(weights);
    Evaluation evaluation = entered(circuit(plain), weights);
    double logP = evaluation.upward();
    if (expected.p() == 0) {
      assertThat(logP).isEqualTo(Double.NEGATIVE_INFINITY);
      return;
    }
    assertThat(logP).isCloseTo(Math.log(expected.p()), within(ROUNDING));
    evaluation.downward();
    for (int v = 0; v < plain.variables(); v++) {
      for (int s = 0; s < plain.states(v); s++) {
        assertThat(evaluation.marginal(v, s)).isCloseTo(expected.marginal(v, s), within(ROUNDING));
      }
    }
  }

  @Property(tries = 300)
  void tinyWeightsChangeNothingButTheScale_whenTheyAreTheSameInAllStates(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed);
    double[][] weights = plain.randomWeights(new Random(seed + 1));
    RandomModel.Summed expected = plain.sum(weights);
    if (expected.p() == 0) {
      return;
    }
    for (double factor : new double[] {1e-160, 1e160}) {
      Evaluation evaluation = entered(circuit(plain), weights);
      for (int v = 0; v < plain.variables(); v++) {
        for (int s = 0; s < plain.states(v); s++) {
          evaluation.weigh(v, s, factor);
        }
      }
      double scale = plain.variables() * Math.log(factor);
      assertThat(evaluation.upward()).isCloseTo(Math.log(expected.p()) + scale, within(1e-9));
      evaluation.downward();
      for (int v = 0; v < plain.variables(); v++) {
        assertThat(evaluation.marginal(v, 0)).isCloseTo(expected.marginal(v, 0), within(ROUNDING));
      }
    }
  }

  @Property(tries = 200)
  void everyLaneIsAnEvaluationOfItsOwn_whateverTheOthersHold(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed);
    Circuit circuit = circuit(plain);
    Random random = new Random(seed + 1);
    int count = 1 + random.nextInt(9);
    Lanes lanes = circuit.lanes(count);
    Evaluation[] alone = new Evaluation[count];
    for (int lane = 0; lane < count; lane++) {
      double[][] weights = plain.randomWeights(random);
      double scale = random.nextInt(4) == 0 ? 1e-200 : 1;
      for (int v = 0; v < weights.length; v++) {
        for (int s = 0; s < weights[v].length; s++) {
          weights[v][s] *= scale;
          lanes.setWeight(lane, v, s, weights[v][s]);
        }
      }
      alone[lane] = entered(circuit, weights);
    }
    lanes.upward();
    lanes.downward();
    for (int lane = 0; lane < count; lane++) {
      double logP = alone[lane].upward();
      assertThat(lanes.logPEvidence(lane)).isEqualTo(logP);
      if (logP == Double.NEGATIVE_INFINITY) {
        continue;
      }
      alone[lane].downward();
      for (int v = 0; v < plain.variables(); v++) {
        for (int s = 0; s < plain.states(v); s++) {
          assertThat(lanes.marginal(lane, v, s)).isEqualTo(alone[lane].marginal(v, s));
          double[] row = new double[count];
          lanes.marginals(v, s, row);
          assertThat(row[lane]).isEqualTo(alone[lane].marginal(v, s));
        }
      }
    }
  }

  @Property(tries = 200)
  void evaluationIsTheSameToTheLastBit_whetherFreshOrAfterOtherEvidence(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed, 4 + (int) Math.abs(seed % 9));
    Circuit circuit = circuit(plain);
    Random random = new Random(seed + 1);
    double[][] weights = plain.randomWeights(random);
    Evaluation kept = entered(circuit, weights);
    for (int change = 0; change < 10; change++) {
      double logP = kept.upward();
      Evaluation fresh = entered(circuit, weights);
      assertThat(logP).isEqualTo(fresh.upward());
      if (logP > Double.NEGATIVE_INFINITY) {
        kept.downward();
        fresh.downward();
        for (int v = 0; v < plain.variables(); v++) {
          assertThat(kept.marginal(v, 0)).isEqualTo(fresh.marginal(v, 0));
        }
      }
      for (int n = random.nextInt(3); n >= 0; n--) {
        int v = random.nextInt(plain.variables());
        weights[v][random.nextInt(plain.states(v))] = random.nextInt(3) / 2.0;
        for (int s = 0; s < weights[v].length; s++) {
          kept.setWeight(v, s, weights[v][s]);
        }
      }
    }
  }

  @Property(tries = 200)
  void marginalsAreTheSame_whenOnlySomeAreAskedFor(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed);
    double[][] weights = plain.randomWeights(new Random(seed + 1));
    Evaluation all = entered(circuit(plain), weights);
    if (all.upward() == Double.NEGATIVE_INFINITY) {
      return;
    }
    all.downward();
    int asked = (int) Math.abs(seed % plain.variables());
    Evaluation some = entered(circuit(plain).asking(asked), weights);
    some.upward();
    some.downward();
    for (int s = 0; s < plain.states(asked); s++) {
      assertThat(some.marginal(asked, s)).isCloseTo(all.marginal(asked, s), within(ROUNDING));
    }
  }

  @Property(tries = 300)
  void bothRoutesGiveTheSame_whateverIsKnownAndAsked(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed, 2 + (int) Math.abs(seed % 9));
    Random random = new Random(seed + 1);
    double[][] weights = plain.randomWeights(random);
    Map<Integer, double[]> likelihoods = new LinkedHashMap<>();
    for (int v = 0; v < weights.length; v++) {
      if (random.nextBoolean()) {
        likelihoods.put(v, weights[v]);
      }
    }
    Set<Integer> asked =
        IntStream.range(0, weights.length)
            .filter(v -> random.nextInt(3) == 0)
            .boxed()
            .collect(Collectors.toSet());
    Inquiry inquiry = Inquiry.of(likelihoods, asked);
    Model model = plain.model();
    Marginals whole = inquiry.whole(model, EliminationOrder.best(model));
    Optional<Model> left = Reduction.of(model, likelihoods, asked);
    Marginals perCase =
        left.map(m -> inquiry.perCase(m, EliminationOrder.best(m)))
            .orElse(new Marginals.Impossible());
    if (!(whole instanceof Marginals.Exact expected)) {
      assertThat(perCase).isEqualTo(whole);
      return;
    }
    Marginals.Exact exact = (Marginals.Exact) perCase;
    assertThat(exact.logPEvidence()).isCloseTo(expected.logPEvidence(), within(ROUNDING));
    for (int v : asked) {
      assertThat(exact.p().get(v)).containsExactly(expected.p().get(v), within(ROUNDING));
    }
  }

  /** Central differences with a step of 1e-6 are good to some 1e-9 of the largest value. */
  @Property(tries = 100)
  void derivativesAreFiniteDifferences_byEveryParameter(@ForAll long seed) {
    RandomModel plain = new RandomModel(seed);
    double[][] weights = plain.randomWeights(new Random(seed + 1));
    double[] parameters = new double[plain.entries()];
    for (int i = 0; i < parameters.length; i++) {
      parameters[i] = plain.entry(i);
    }
    Circuit circuit = compiled(plain.model(parameters)).askingParameters();
    Evaluation evaluation = entered(circuit, weights);
    double logP = evaluation.upward();
    if (logP < Math.log(1e-3)) {
      return;
    }
    evaluation.downward();
    double step = 1e-6;
    for (int i = 0; i < parameters.length; i += 3) {
      double slope = 0;
      for (int sign = -1; sign <= 1; sign += 2) {
        double[] moved = parameters.clone();
        moved[i] += sign * step;
        slope += sign * entered(circuit.withParameters(moved), weights).upward() / (2 * step);
      }
      assertThat(evaluation.parameterDerivative(i)).isCloseTo(slope, within(1e-4));
    }
  }

  private static Circuit circuit(RandomModel plain) {
    return compiled(plain.model());
  }

  private static Circuit compiled(Model model) {
    return (Circuit) CircuitCompiler.compile(model, 1e6);
  }

  private static Evaluation entered(Circuit circuit, double[][] weights) {
    Evaluation evaluation = circuit.evaluation();
    for (int v = 0; v < weights.length; v++) {
      evaluation.weigh(v, weights[v]);
    }
    return evaluation;
  }
}
