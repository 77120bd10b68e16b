package org.faultwright.oracle;

/** A source of chance: draws that have names, each made once and remembered. */
interface Chances {

  /**
   * Which of several alternatives came up.
   *
   * @param name what is drawn; asking again for the same name gives the same answer
   * @param p the probability of each alternative, given all that has been drawn before; they sum to
   *     1
   * @return the index of the alternative
   */
  int draw(Object name, double[] p);

  /** Whether something that has probability {@code pTrue} came up. */
  default boolean flip(Object name, double pTrue) {
    return pTrue > 0 && (pTrue == 1 || draw(name, new double[] {1 - pTrue, pTrue}) == 1);
  }
}
