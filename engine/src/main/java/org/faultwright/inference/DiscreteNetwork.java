package org.faultwright.inference;

import java.util.List;

/**
 * A Bayesian network as plain tables, for exchange and for comparison with other programs.
 *
 * @param nodes the nodes; parents come before children
 */
public record DiscreteNetwork(List<Node> nodes) {

  /** Copies the list. */
  public DiscreteNetwork {
    nodes = List.copyOf(nodes);
  }

  /**
   * A variable with its table. The arrays are handed over, not copied.
   *
   * @param name for people
   * @param states number of states
   * @param parents numbers of the parents
   * @param rows P(state | parents): one row of {@code states} numbers for each combination of the
   *     parents' states, the last parent running fastest
   */
  public record Node(String name, int states, int[] parents, double[] rows) {}
}
