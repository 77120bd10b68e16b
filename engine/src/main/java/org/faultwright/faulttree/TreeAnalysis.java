package org.faultwright.faulttree;

/**
 * What analysing a fault tree gives. What each figure is, and where its definition comes from, is
 * written in {@code engine/docs/fault-trees.md}.
 */
public sealed interface TreeAnalysis permits TreeFigures, TreeAnalysis.OverBudget {

  /**
   * The tree is too large for decision diagrams.
   *
   * @param allowedNodes nodes of diagrams that are allowed
   */
  record OverBudget(int allowedNodes) implements TreeAnalysis {}

  /**
   * Analyses a tree whose basic events are independent.
   *
   * @param top the top event
   * @throws IllegalArgumentException when the tree does not have that event
   */
  static TreeAnalysis of(FaultTree tree, EventName top, AnalysisLimits limits) {
    return of(tree, top, Dependence.NONE, limits);
  }

  /**
   * Analyses a tree. Cut sets, bounds and importances take basic events as independent; the circuit
   * takes them as they depend on one another. Cut sets with two events of a group of which at most
   * one happens are left out, being impossible.
   *
   * @param top the top event
   * @throws IllegalArgumentException when the tree does not have that event
   */
  static TreeAnalysis of(
      FaultTree tree, EventName top, Dependence dependence, AnalysisLimits limits) {
    if (!tree.nodes().containsKey(top)) {
      throw new IllegalArgumentException("top must be an event of the tree: " + top);
    }
    OverBudget over = null;
    for (boolean lastFirst : new boolean[] {false, true}) {
      try {
        return new Analyst(FaultLogic.of(tree, top, lastFirst), dependence, limits).analyse();
      } catch (OverBudgetException e) {
        // another order of the variables can be much better
        over = new OverBudget(limits.diagramNodes());
      }
    }
    return over;
  }

  /** Only the circuit's answer: for a tree that is too large for decision diagrams. */
  static CircuitResult circuit(
      FaultTree tree, EventName top, Dependence dependence, AnalysisLimits limits) {
    return TreeCircuit.evaluate(
        FaultLogic.of(tree, top, false), dependence, limits.circuitEntries());
  }
}
