package org.faultwright.casefile;

/** The three values of a condition (Kleene's strong logic). */
public enum Truth {
  /** It does not hold. */
  FALSE,
  /** Nobody has said. */
  UNKNOWN,
  /** It holds. */
  TRUE;

  /** The value of a plain yes or no. */
  public static Truth of(boolean value) {
    return value ? TRUE : FALSE;
  }

  /** Both: the lesser of the two. */
  public Truth and(Truth other) {
    return compareTo(other) <= 0 ? this : other;
  }

  /** Either: the greater of the two. */
  public Truth or(Truth other) {
    return compareTo(other) >= 0 ? this : other;
  }

  /** The opposite; unknown stays unknown. */
  public Truth not() {
    return this == TRUE ? FALSE : this == FALSE ? TRUE : UNKNOWN;
  }
}
