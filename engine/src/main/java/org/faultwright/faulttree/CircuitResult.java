package org.faultwright.faulttree;

import java.util.Map;
import org.faultwright.pack.Ordered;

/** What the circuit of package {@code inference} says about a fault tree. */
public sealed interface CircuitResult {

  /**
   * Exact probabilities, with basic events that depend on one another taken as they are.
   *
   * @param pTop P(top event)
   * @param pNotTop P(no top event)
   * @param pGivenTop P(basic event | top event), in order; empty where the top event is impossible,
   *     or certain by the logic alone
   * @param operations sums and products of the circuit
   */
  record Exact(double pTop, double pNotTop, Map<EventName, Double> pGivenTop, int operations)
      implements CircuitResult {
    /** Copies the map. */
    public Exact {
      pGivenTop = Ordered.copy(pGivenTop);
    }
  }

  /**
   * The tree is too wide for a circuit.
   *
   * @param predicted the number of table entries that compiling would make
   * @param budget the number that is allowed
   */
  record TooWide(double predicted, double budget) implements CircuitResult {}
}
