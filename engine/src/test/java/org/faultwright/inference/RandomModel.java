package org.faultwright.inference;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * A small random Bayesian network, kept as plain tables beside the model, so that it can be summed
 * by brute force.
 */
final class RandomModel {

  private record Table(int[] variables, double[] values) {}

  private final int[] states;
  private final List<Table> tables = new ArrayList<>();

  RandomModel(long seed) {
    this(seed, 2 + new Random(seed).nextInt(7));
  }

  RandomModel(long seed, int n) {
    Random random = new Random(seed);
    states = new int[n];
    for (int v = 0; v < n; v++) {
      states[v] = n > 12 || random.nextBoolean() ? 2 : 3;
    }
    for (int v = 0; v < n; v++) {
      List<Integer> scope = new ArrayList<>();
      for (int p = 0; p < v && scope.size() < 3; p++) {
        if (random.nextInt(3) == 0) {
          scope.add(p);
        }
      }
      scope.add(v);
      tables.add(table(random, scope.stream().mapToInt(Integer::intValue).toArray()));
    }
  }

  private Table table(Random random, int[] scope) {
    int size = 1;
    for (int v : scope) {
      size *= states[v];
    }
    double[] values = new double[size];
    int own = states[scope[scope.length - 1]];
    for (int row = 0; row < size; row += own) {
      double sum = 0;
      for (int s = 0; s < own; s++) {
        // a third of the entries are zero, so that folding is exercised and some evidence is
        // impossible
        values[row + s] =
            s == own - 1 && sum == 0 || random.nextInt(3) > 0 ? random.nextDouble() : 0;
        sum += values[row + s];
      }
      for (int s = 0; s < own; s++) {
        values[row + s] /= sum;
      }
    }
    return new Table(scope, values);
  }

  int variables() {
    return states.length;
  }

  int states(int v) {
    return states[v];
  }

  Model model() {
    return model(new double[0]);
  }

  /** Number of entries of all tables. */
  int entries() {
    return tables.stream().mapToInt(t -> t.values.length).sum();
  }

  double entry(int number) {
    int n = number;
    for (Table t : tables) {
      if (n < t.values.length) {
        return t.values[n];
      }
      n -= t.values.length;
    }
    throw new IllegalArgumentException("number must be below " + entries() + ": " + number);
  }

  /** As a model whose first entries are parameters with other values than in the tables. */
  Model model(double[] parameters) {
    int next = 0;
    Model model = new Model();
    for (int v = 0; v < states.length; v++) {
      model.observe(model.variable("v" + v, states[v]));
    }
    for (Table t : tables) {
      int[] entries = new int[t.values.length];
      for (int i = 0; i < entries.length; i++) {
        entries[i] =
            next < parameters.length
                ? model.entry(model.parameter(parameters[next++]))
                : model.constant(t.values[i]);
      }
      model.factor(t.variables, entries);
    }
    return model;
  }

  /**
   * What summing over all assignments gives.
   *
   * @param p the sum of the products of all tables and weights
   * @param marginals the parts of it in which a variable is in a state
   */
  record Summed(double p, double[][] marginals) {

    double marginal(int variable, int state) {
      return marginals[variable][state] / p;
    }
  }

  Summed sum(double[][] weights) {
    int[] at = new int[states.length];
    double total = 0;
    double[][] marginals = new double[states.length][];
    for (int v = 0; v < marginals.length; v++) {
      marginals[v] = new double[states[v]];
    }
    while (true) {
      double p = product(weights, at);
      total += p;
      for (int v = 0; v < at.length; v++) {
        marginals[v][at[v]] += p;
      }
      int v = 0;
      while (v < at.length && ++at[v] == states[v]) {
        at[v++] = 0;
      }
      if (v == at.length) {
        return new Summed(total, marginals);
      }
    }
  }

  /** Evidence of all kinds: none, one state, a likelihood. */
  double[][] randomWeights(Random random) {
    double[][] weights = new double[states.length][];
    for (int v = 0; v < weights.length; v++) {
      weights[v] = new double[states[v]];
      int kind = random.nextInt(4);
      int only = random.nextInt(states[v]);
      for (int s = 0; s < weights[v].length; s++) {
        weights[v][s] = kind == 0 ? (s == only ? 1 : 0) : kind == 1 ? random.nextDouble() : 1;
      }
    }
    return weights;
  }

  private double product(double[][] weights, int[] at) {
    double p = 1;
    for (int v = 0; v < at.length; v++) {
      p *= weights[v][at[v]];
    }
    if (p == 0) {
      return 0;
    }
    for (Table t : tables) {
      int i = 0;
      for (int v : t.variables) {
        i = i * states[v] + at[v];
      }
      p *= t.values[i];
    }
    return p;
  }
}
