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
    Random random = new Random(seed);
    int n = 2 + random.nextInt(7);
    states = new int[n];
    for (int v = 0; v < n; v++) {
      states[v] = 2 + random.nextInt(2);
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
    Model model = new Model();
    for (int v = 0; v < states.length; v++) {
      model.observe(model.variable("v" + v, states[v]));
    }
    for (Table t : tables) {
      int[] entries = new int[t.values.length];
      for (int i = 0; i < entries.length; i++) {
        entries[i] = model.constant(t.values[i]);
      }
      model.factor(t.variables, entries);
    }
    return model;
  }

  /**
   * Sum over all assignments of the product of all tables and weights, with one variable fixed (-1:
   * none).
   */
  double sum(double[][] weights, int fixed, int state) {
    int[] at = new int[states.length];
    double total = 0;
    while (true) {
      if (fixed < 0 || at[fixed] == state) {
        total += product(weights, at);
      }
      int v = 0;
      while (v < at.length && ++at[v] == states[v]) {
        at[v++] = 0;
      }
      if (v == at.length) {
        return total;
      }
    }
  }

  private double product(double[][] weights, int[] at) {
    double p = 1;
    for (int v = 0; v < at.length; v++) {
      p *= weights[v][at[v]];
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
