package org.faultwright.inference;

import java.util.Arrays;

/**
 * Folds evidence into a circuit, so that only what depends on a few variables is left to evaluate.
 */
final class Residue {

  private static final int FOLDED = -1;

  private final Circuit circuit;
  private final double[] values;
  private final int[] place;
  private final boolean[] isSum;
  private final int[] left;
  private final int[] right;
  private double[] leafValues;
  private int leaves;
  private int operations;

  private Residue(Circuit circuit, double[] values) {
    this.circuit = circuit;
    this.values = values;
    this.place = new int[values.length];
    this.isSum = new boolean[circuit.isSum.length];
    this.left = new int[isSum.length];
    this.right = new int[isSum.length];
    this.leafValues = new double[64];
  }

  /**
   * The circuit given the weights that stand in an evaluation, in which only the kept variables can
   * still be weighed.
   *
   * @param values of all nodes, after an upward pass
   */
  static Circuit of(Circuit circuit, double[] values, int[] kept) {
    return new Residue(circuit, values).fold(kept);
  }

  private Circuit fold(int[] kept) {
    int n = circuit.isSum.length;
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
      int node = circuit.leaves + i;
      int a = alias[circuit.left[i]];
      int b = alias[circuit.right[i]];
      if (!open[a] && !open[b]) {
        continue;
      }
      if (open[a] && open[b]) {
        open[node] = true;
      } else {
        int constant = open[a] ? b : a;
        int variable = open[a] ? a : b;
        if (values[constant] == (circuit.isSum[i] ? 0 : 1)) {
          alias[node] = variable;
        } else if (circuit.isSum[i] || values[constant] != 0) {
          open[node] = true;
        }
      }
    }
    // only what the root depends on
    boolean[] used = new boolean[values.length];
    int root = alias[circuit.root];
    used[root] = true;
    for (int i = n - 1; i >= 0; i--) {
      int node = circuit.leaves + i;
      if (used[node] && open[node]) {
        used[alias[circuit.left[i]]] = true;
        used[alias[circuit.right[i]]] = true;
      }
    }
    for (int node = 0; node < values.length; node++) {
      if (used[node] && !open[node]) {
        place[node] = leaf(values[node]);
      }
    }
    for (int i = 0; i < n; i++) {
      int node = circuit.leaves + i;
      if (used[node] && open[node]) {
        isSum[operations] = circuit.isSum[i];
        left[operations] = place[alias[circuit.left[i]]];
        right[operations] = place[alias[circuit.right[i]]];
        place[node] = leaves + operations++;
      }
    }
    return new Circuit(
        leaves,
        Arrays.copyOf(isSum, operations),
        Arrays.copyOf(left, operations),
        Arrays.copyOf(right, operations),
        place[root],
        Arrays.copyOf(leafValues, leaves),
        new int[0],
        firstIndicator,
        circuit.states);
  }

  private int leaf(double value) {
    if (leaves == leafValues.length) {
      leafValues = Arrays.copyOf(leafValues, leaves * 2);
    }
    leafValues[leaves] = value;
    return leaves++;
  }
}
