package org.faultwright.inference;

/**
 * A weighted sum of circuits over the same indicators with the same weights. Equal nodes are
 * shared, so that what does not differ between the circuits is there once.
 */
final class CircuitSum {

  private final Expressions expressions = new Expressions();
  private int root = expressions.zero;
  private Circuit first;

  /**
   * Adds a circuit.
   *
   * @param weight above 0
   */
  void add(Circuit circuit, double weight) {
    if (first == null) {
      first = circuit;
    }
    Graph graph = circuit.structure.graph;
    int[] place = new int[graph.nodes()];
    Indicators indicators = circuit.structure.indicators;
    for (int v = 0; v < indicators.states().length; v++) {
      for (int s = 0; indicators.has(v) && s < indicators.states()[v]; s++) {
        place[indicators.leaf(v, s)] = expressions.indicator(v, s);
      }
    }
    for (int leaf = indicators.end(); leaf < graph.leaves; leaf++) {
      place[leaf] = expressions.constant(circuit.leafValues[leaf]);
    }
    for (int i = 0; i < graph.operations(); i++) {
      int a = place[graph.left[i]];
      int b = place[graph.right[i]];
      place[graph.leaves + i] = graph.isSum[i] ? expressions.sum(a, b) : expressions.product(a, b);
    }
    int weighed = expressions.product(place[circuit.structure.root], expressions.constant(weight));
    root = expressions.sum(root, weighed);
  }

  /** The sum of what has been added, at least one circuit. */
  Circuit circuit() {
    return Circuit.of(first.structure.indicators, expressions, root, new double[0])
        .withIndicators(first.leafValues);
  }
}
