package org.faultwright.faulttree;

import java.util.List;
import java.util.Optional;
import org.faultwright.faulttree.Importance.Bearing;

/**
 * The figures of a fault tree.
 *
 * @param top the top event
 * @param pTop P(top), exact, by a binary decision diagram; basic events are independent
 * @param pNotTop P(no top event), with all its digits also where P(top) is near 1
 * @param diagramNodes nodes of that diagram
 * @param circuit the same by the circuit, and with dependence where there is any
 * @param cutSets the minimal cut sets
 * @param primeImplicants what the top event follows from, where the tree is not coherent; empty
 *     where it is, or where there are too many
 * @param importances of every basic event below the top, in the order of the tree
 */
public record TreeFigures(
    EventName top,
    double pTop,
    double pNotTop,
    int diagramNodes,
    CircuitResult circuit,
    CutSetResult cutSets,
    Optional<PrimeImplicants> primeImplicants,
    List<Importance> importances)
    implements TreeAnalysis {

  /** Copies the list. */
  public TreeFigures {
    importances = List.copyOf(importances);
  }

  /**
   * Whether the top event never fails to happen because some basic event happens: whatever gates
   * the tree is drawn with, its function is monotone.
   */
  public boolean isCoherent() {
    return importances.stream()
        .allMatch(i -> i.bearing() == Bearing.TOWARDS || i.bearing() == Bearing.NONE);
  }
}
