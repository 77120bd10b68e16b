package org.faultwright.inference;

import java.util.List;

/**
 * A Bayesian network as plain tables, for exchange and for comparison with other programs.
 *
 * @param nodes the nodes, in any order
 */
public record DiscreteNetwork(List<Node> nodes) {

  /** How far a row may be from summing to 1; published tables are off by up to 3e-7. */
  public static final double ROW_TOLERANCE = 1e-6;

  /**
   * Copies the list.
   *
   * @throws IllegalArgumentException when a parent is not one of the nodes, a table has not as many
   *     numbers as its variables ask for, or the arrows form a cycle
   */
  public DiscreteNetwork {
    nodes = List.copyOf(nodes);
    for (Node n : nodes) {
      int rows = 1;
      for (int p : n.parents) {
        if (p < 0 || p >= nodes.size()) {
          throw new IllegalArgumentException(
              "parents of " + n.name + " must be nodes of the network: " + p);
        }
        rows *= nodes.get(p).states;
      }
      if (n.rows.length != rows * n.states) {
        throw new IllegalArgumentException(
            "table of " + n.name + " must have " + rows * n.states + " numbers: " + n.rows.length);
      }
    }
    if (order(nodes).length < nodes.size()) {
      throw new IllegalArgumentException("arrows of a network must not form a cycle");
    }
  }

  /** The numbers of the nodes, parents before children. */
  int[] order() {
    return order(nodes);
  }

  private static int[] order(List<Node> nodes) {
    int[] order = new int[nodes.size()];
    boolean[] placed = new boolean[nodes.size()];
    int count = 0;
    boolean more = true;
    while (more) {
      more = false;
      for (int v = 0; v < placed.length; v++) {
        boolean ready = !placed[v];
        for (int p : nodes.get(v).parents) {
          ready &= placed[p];
        }
        if (ready) {
          placed[v] = true;
          order[count++] = v;
          more = true;
        }
      }
    }
    return java.util.Arrays.copyOf(order, count);
  }

  /**
   * A variable with its table. Each row is divided by its sum, so that rounding in a published
   * table does no harm.
   *
   * @param name for people
   * @param states number of states, from 2
   * @param parents numbers of the parents
   * @param rows P(state | parents): one row of {@code states} numbers for each combination of the
   *     parents' states, the last parent running fastest
   */
  public record Node(String name, int states, int[] parents, double[] rows) {

    /**
     * Copies the arrays.
     *
     * @throws IllegalArgumentException when a number is not in [0, 1] or a row does not sum to 1
     *     within {@link #ROW_TOLERANCE}
     */
    public Node {
      if (states < 2) {
        throw new IllegalArgumentException("states of " + name + " must be at least 2: " + states);
      }
      if (rows.length == 0 || rows.length % states != 0) {
        throw new IllegalArgumentException(
            "table of " + name + " must have full rows of " + states + ": " + rows.length);
      }
      parents = parents.clone();
      rows = rows.clone();
      for (int row = 0; row < rows.length; row += states) {
        double sum = 0;
        for (int s = row; s < row + states; s++) {
          if (!(rows[s] >= 0 && rows[s] <= 1 + ROW_TOLERANCE)) {
            throw new IllegalArgumentException(
                "numbers of " + name + " must be in [0, 1]: " + rows[s]);
          }
          sum += rows[s];
        }
        if (Math.abs(sum - 1) > ROW_TOLERANCE) {
          throw new IllegalArgumentException(
              "row "
                  + (row / states + 1)
                  + " of "
                  + name
                  + " must sum to 1 within "
                  + ROW_TOLERANCE
                  + ": "
                  + sum);
        }
        for (int s = row; s < row + states; s++) {
          rows[s] /= sum;
        }
      }
    }
  }
}
