package org.faultwright.inference;

import java.util.Map;

/**
 * What evidence makes of some variables of a model.
 *
 * @see Inquiry
 */
public sealed interface Marginals {

  /** How exact numbers were found. */
  enum Route {
    /** The whole model was compiled. */
    WHOLE,
    /**
     * What the evidence leaves of the model was compiled: parts that tell nothing and states that
     * it rules out are gone.
     */
    PER_CASE
  }

  /**
   * Exact numbers.
   *
   * @param route how they were found
   * @param size table entries that this took, as predicted
   * @param logPEvidence ln P(evidence)
   * @param p for each asked variable P(state | evidence)
   */
  record Exact(Route route, double size, double logPEvidence, Map<Integer, double[]> p)
      implements Marginals {}

  /** The evidence has probability 0. */
  record Impossible() implements Marginals {}

  /**
   * An exact answer is too dear, and drawing was not allowed or came to nothing.
   *
   * @param whole table entries that compiling the whole model would make
   * @param perCase table entries that compiling what the evidence leaves of it would make
   * @param budget the number that was allowed
   */
  record OverBudget(double whole, double perCase, double budget) implements Marginals {}

  /**
   * Numbers estimated from random draws, because exact ones are over budget and the caller allowed
   * it.
   *
   * @param draws how many were made
   * @param effectiveDraws how many equally weighted draws would be as good; below some hundred the
   *     estimate, and its standard error too, are not to be relied on
   * @param logPEvidence ln of the estimated P(evidence)
   * @param p for each asked variable the estimated P(state | evidence)
   * @param standardErrors of {@code p}; 0 where no draw had the state, or all had it: then P may be
   *     some 3 / effectiveDraws away (rule of three)
   */
  record Estimated(
      int draws,
      double effectiveDraws,
      double logPEvidence,
      Map<Integer, double[]> p,
      Map<Integer, double[]> standardErrors)
      implements Marginals {}
}
