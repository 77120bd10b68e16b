package org.faultwright.inference;

import java.util.Arrays;

/**
 * Folds evidence into a circuit, so that only what depends on a few variables is left to evaluate.
 */
final class Residue {

  private Residue() {}

  /**
   * The circuit given the weights that stand in an evaluation, in which only the kept variables can
   * still be weighed.
   *
   * @param weights values of the leaves
   */
  static Circuit of(Circuit circuit, double[] weights, int[] kept) {
    Circuit.Structure all = circuit.structure;
    Graph graph = all.graph;
    Indicators were = all.indicators;
    boolean[] isKept = new boolean[were.states().length];
    for (int v : kept) {
      isKept[v] = true;
    }
    Indicators left = Indicators.of(were.states(), v -> isKept[v]);
    Expressions expressions = new Expressions();
    double[] values = Arrays.copyOf(weights, graph.nodes());
    // the expression of what a kept variable can still change; -1 for a number
    int[] open = new int[graph.nodes()];
    Arrays.fill(open, -1);
    for (int v : kept) {
      for (int s = 0; s < were.states()[v]; s++) {
        open[were.leaf(v, s)] = expressions.indicator(v, s);
      }
    }
    for (int i = 0; i < graph.operations(); i++) {
      int a = graph.left[i];
      int b = graph.right[i];
      int node = graph.leaves + i;
      if (open[a] < 0 && open[b] < 0) {
        values[node] = graph.isSum[i] ? values[a] + values[b] : values[a] * values[b];
        continue;
      }
      int of = open[a] < 0 ? expressions.constant(values[a]) : open[a];
      int and = open[b] < 0 ? expressions.constant(values[b]) : open[b];
      int made = graph.isSum[i] ? expressions.sum(of, and) : expressions.product(of, and);
      if (expressions.kind(made) == Expressions.CONSTANT) {
        values[node] = expressions.value(made);
      } else {
        open[node] = made;
      }
    }
    int root = open[all.root] < 0 ? expressions.constant(values[all.root]) : open[all.root];
    Circuit folded = Circuit.of(left, expressions, root, new double[0]);
    double[] start = new double[left.end()];
    for (int v : kept) {
      System.arraycopy(weights, were.leaf(v, 0), start, left.leaf(v, 0), were.states()[v]);
    }
    return folded.withIndicators(start);
  }
}
