package org.faultwright.faulttree;

import org.faultwright.inference.CircuitCompiler;

/**
 * How far an analysis goes.
 *
 * @param maxOrder cut sets with more events are counted, but not listed; from 1
 * @param pCutoff cut sets that are less likely are counted, but not listed; in [0, 1]
 * @param mostListed the most cut sets that are listed, from 0
 * @param diagramNodes the most nodes of decision diagrams, from 1,000 to 2^27; about 100 bytes each
 * @param circuitEntries the most table entries that compiling the circuit may make
 */
public record AnalysisLimits(
    int maxOrder, double pCutoff, int mostListed, int diagramNodes, double circuitEntries) {

  /** What fits most trees and a small machine. */
  public static final AnalysisLimits USUAL =
      new AnalysisLimits(1_000, 0, 1_000, 1_000_000, CircuitCompiler.DEFAULT_BUDGET);

  /** Checks the domains. */
  public AnalysisLimits {
    if (maxOrder < 1) {
      throw new IllegalArgumentException("maxOrder must be at least 1: " + maxOrder);
    }
    if (!(pCutoff >= 0 && pCutoff <= 1)) {
      throw new IllegalArgumentException("pCutoff must be in [0, 1]: " + pCutoff);
    }
    if (mostListed < 0) {
      throw new IllegalArgumentException("mostListed must not be negative: " + mostListed);
    }
    if (diagramNodes < 1_000 || diagramNodes > 1 << 27) {
      throw new IllegalArgumentException("diagramNodes must be in [1000, 2^27]: " + diagramNodes);
    }
    if (!(circuitEntries >= 0)) {
      throw new IllegalArgumentException("circuitEntries must not be negative: " + circuitEntries);
    }
  }

  /** These with other limits of what is listed. */
  public AnalysisLimits listing(int order, double pLeast, int most) {
    return new AnalysisLimits(order, pLeast, most, diagramNodes, circuitEntries);
  }
}
