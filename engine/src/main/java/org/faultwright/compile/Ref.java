package org.faultwright.compile;

/** Something true or false in a network. */
sealed interface Ref {

  /** Known from the definition. */
  record Known(boolean value) implements Ref {}

  /** True where the variable is in the state. */
  record At(int variable, int state) implements Ref {}

  /** Never true. */
  Ref NO = new Known(false);

  /** Always true. */
  Ref YES = new Known(true);

  /** The constant of a truth value. */
  static Ref of(boolean value) {
    return value ? YES : NO;
  }
}
