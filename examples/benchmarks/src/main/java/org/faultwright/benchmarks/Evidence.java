package org.faultwright.benchmarks;

import java.util.Arrays;
import org.faultwright.inference.DiscreteNetwork;

/** Evidence in the terms of programs that know only the observed state of a node. */
final class Evidence {

  private Evidence() {}

  /** The one state that a likelihood leaves; -1 when it leaves several. */
  static int onlyState(double[] likelihood) {
    int only = -1;
    for (int s = 0; s < likelihood.length; s++) {
      if (likelihood[s] > 0) {
        if (only >= 0) {
          return -1;
        }
        only = s;
      }
    }
    return only;
  }

  /**
   * A child whose first state says what a likelihood says (Pearl, Probabilistic Reasoning in
   * Intelligent Systems, 1988, section 2.2.2; from memory).
   */
  static DiscreteNetwork.Node virtualChild(int parent, double[] likelihood) {
    double most = Arrays.stream(likelihood).max().orElseThrow();
    double[] rows = new double[2 * likelihood.length];
    for (int s = 0; s < likelihood.length; s++) {
      rows[2 * s] = likelihood[s] / most;
      rows[2 * s + 1] = 1 - rows[2 * s];
    }
    return new DiscreteNetwork.Node("evidence on " + parent, 2, new int[] {parent}, rows);
  }
}
