package org.faultwright.inference;

import java.util.Arrays;
import java.util.function.IntPredicate;

/**
 * Where the weights of states enter a circuit: as its first leaves.
 *
 * @param first for each variable the leaf of its first state, the others follow; -1 where evidence
 *     about the variable cannot be entered
 * @param states number of states of each variable
 * @param end the first leaf that is no indicator
 */
record Indicators(int[] first, int[] states, int end) {

  /** Leaves for the variables that can be observed, in their order. */
  static Indicators of(int[] states, IntPredicate observable) {
    int[] first = new int[states.length];
    Arrays.fill(first, -1);
    int next = 0;
    for (int v = 0; v < first.length; v++) {
      if (observable.test(v)) {
        first[v] = next;
        next += states[v];
      }
    }
    return new Indicators(first, states, next);
  }

  /**
   * The leaf of a state.
   *
   * @throws IllegalArgumentException when the variable cannot be observed
   */
  int leaf(int variable, int state) {
    if (first[variable] < 0) {
      throw new IllegalArgumentException("variable cannot be observed: " + variable);
    }
    return first[variable] + state;
  }

  boolean has(int variable) {
    return first[variable] >= 0;
  }
}
