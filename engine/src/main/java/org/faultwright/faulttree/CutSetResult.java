package org.faultwright.faulttree;

/** The minimal cut sets, or why they are not there although the probability is. */
public sealed interface CutSetResult permits CutSets, CutSetResult.OverBudget {

  /**
   * The diagram of the cut sets would be too large.
   *
   * @param allowedNodes nodes of diagrams that are allowed
   */
  record OverBudget(int allowedNodes) implements CutSetResult {}
}
