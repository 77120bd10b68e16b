package org.faultwright.inference;

import java.util.Arrays;

/**
 * Folds evidence into a circuit, so that only what depends on a few variables is left to evaluate.
 */
final class Residue {

  private static final int FOLDED = -1;

  private final Circuit.Structure circuit;
  private final Graph graph;
  private final double[] values;
  private final int[] place;
  private double[] leafValues;
  private int leaves;

  private Residue(Circuit.Structure circuit, double[] values) {
    this.circuit = circuit;
    this.graph = circuit.graph;
    this.values = values;
    this.place = new int[values.length];
    this.leafValues = new double[64];
  }

  /**
   * The circuit given the weights that stand in an evaluation, in which only the kept variables can
   * still be weighed.
   *
   * @param weights values of the leaves
   */
  static Circuit of(Circuit circuit, double[] weights, int[] kept) {
    Graph graph = circuit.structure.graph;
    double[] values = Arrays.copyOf(weights, graph.nodes());
    for (int i = 0; i < graph.operations(); i++) {
      double a = values[graph.left[i]];
      double b = values[graph.right[i]];
      values[graph.leaves + i] = graph.isSum[i] ? a + b : a * b;
    }
    return new Residue(circuit.structure, values).fold(kept);
  }

  private Circuit fold(int[] kept) {
    int n = graph.operations();
    boolean[] open = new boolean[values.length];
    int[] firstIndicator = new int[circuit.states.length];
    Arrays.fill(firstIndicator, -1);
    Arrays.fill(place, FOLDED);
    for (int v : kept) {
      if (firstIndicator[v] >= 0) {
        continue;
      }
      firstIndicator[v] = leaves;
      for (int s = 0; s < circuit.states[v]; s++) {
        int at = circuit.firstIndicator[v] + s;
        open[at] = true;
        place[at] = leaf(values[at]);
      }
    }
    // what an operation comes to: folded (its value is in values), or the node that stands for it
    int[] alias = new int[values.length];
    for (int i = 0; i < values.length; i++) {
      alias[i] = i;
    }
    for (int i = 0; i < n; i++) {
      int node = graph.leaves + i;
      int a = alias[graph.left[i]];
      int b = alias[graph.right[i]];
      if (!open[a] && !open[b]) {
        continue;
      }
      if (open[a] && open[b]) {
        open[node] = true;
      } else {
        int constant = open[a] ? b : a;
        int variable = open[a] ? a : b;
        if (values[constant] == (graph.isSum[i] ? 0 : 1)) {
          alias[node] = variable;
        } else if (graph.isSum[i] || values[constant] != 0) {
          open[node] = true;
        }
      }
    }
    // only what the root depends on
    boolean[] used = new boolean[values.length];
    int root = alias[circuit.root];
    used[root] = true;
    for (int i = n - 1; i >= 0; i--) {
      int node = graph.leaves + i;
      if (used[node] && open[node]) {
        used[alias[graph.left[i]]] = true;
        used[alias[graph.right[i]]] = true;
      }
    }
    for (int node = 0; node < values.length; node++) {
      if (used[node] && !open[node]) {
        place[node] = leaf(values[node]);
      }
    }
    Graph folded = new Graph(leaves, n);
    for (int i = 0; i < n; i++) {
      int node = graph.leaves + i;
      if (used[node] && open[node]) {
        int a = place[alias[graph.left[i]]];
        int b = place[alias[graph.right[i]]];
        place[node] = graph.isSum[i] ? folded.sum(a, b) : folded.product(a, b);
      }
    }
    return new Circuit(
        new Circuit.Structure(folded, place[root], new int[0], firstIndicator, circuit.states),
        Arrays.copyOf(leafValues, leaves));
  }

  private int leaf(double value) {
    if (leaves == leafValues.length) {
      leafValues = Arrays.copyOf(leafValues, leaves * 2);
    }
    leafValues[leaves] = value;
    return leaves++;
  }
}
