package org.faultwright.inference;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;

/**
 * Likelihood weighting: variables are drawn causes first, each draw weighted by the probability of
 * the evidence in it. A variable whose evidence leaves one state is not drawn but set.
 *
 * @see "R. Fung, K. C. Chang, Weighing and integrating evidence for stochastic simulation in
 *     Bayesian networks, UAI 1989; standard error of the ratio by the delta method"
 */
final class Sampling {

  private final DiscreteNetwork network;
  private final Map<Integer, double[]> likelihoods;
  private final Set<Integer> asked;

  Sampling(Model model, Map<Integer, double[]> likelihoods, Set<Integer> asked) {
    this.network = model.network(model.parameterValues());
    this.likelihoods = likelihoods;
    this.asked = asked;
  }

  /** Draws; empty where the evidence came up in no draw. */
  Optional<Marginals> draw(Inquiry.Drawing drawing) {
    SplittableRandom random = new SplittableRandom(drawing.seed());
    int[] order = network.order();
    int[] states = new int[order.length];
    Map<Integer, double[]> weights = new LinkedHashMap<>();
    Map<Integer, double[]> squares = new LinkedHashMap<>();
    for (int v : asked) {
      weights.put(v, new double[network.nodes().get(v).states()]);
      squares.put(v, new double[network.nodes().get(v).states()]);
    }
    double total = 0;
    double totalSquare = 0;
    for (int i = 0; i < drawing.draws(); i++) {
      double weight = 1;
      for (int k = 0; k < order.length && weight > 0; k++) {
        weight *= draw(order[k], states, random);
      }
      if (weight == 0) {
        continue;
      }
      total += weight;
      totalSquare += weight * weight;
      for (int v : asked) {
        weights.get(v)[states[v]] += weight;
        squares.get(v)[states[v]] += weight * weight;
      }
    }
    if (total == 0) {
      return Optional.empty();
    }
    Map<Integer, double[]> errors = new LinkedHashMap<>();
    for (int v : asked) {
      double[] p = weights.get(v);
      double[] error = squares.get(v);
      for (int s = 0; s < p.length; s++) {
        p[s] /= total;
        double in = error[s];
        double out = totalSquare - in;
        error[s] = Math.sqrt(Math.max(0, in * (1 - p[s]) * (1 - p[s]) + out * p[s] * p[s])) / total;
      }
      errors.put(v, error);
    }
    return Optional.of(
        new Marginals.Estimated(
            drawing.draws(),
            total * total / totalSquare,
            Math.log(total / drawing.draws()),
            weights,
            errors));
  }

  /** Draws or sets one variable; returns the weight that this brings. */
  private double draw(int v, int[] states, SplittableRandom random) {
    DiscreteNetwork.Node node = network.nodes().get(v);
    int row = 0;
    for (int p : node.parents()) {
      row = row * network.nodes().get(p).states() + states[p];
    }
    int from = row * node.states();
    double[] likelihood = likelihoods.get(v);
    double total = 0;
    for (int s = 0; s < node.states(); s++) {
      total += node.rows()[from + s] * (likelihood == null ? 1 : likelihood[s]);
    }
    double at = random.nextDouble() * total;
    int s = -1;
    for (int t = 0; t < node.states(); t++) {
      double p = node.rows()[from + t] * (likelihood == null ? 1 : likelihood[t]);
      if (p > 0 && at >= 0) {
        s = t;
      }
      at -= p;
    }
    states[v] = Math.max(0, s);
    return likelihood == null ? 1 : total;
  }
}
