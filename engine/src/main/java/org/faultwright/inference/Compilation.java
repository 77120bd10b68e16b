package org.faultwright.inference;

/** What compiling a model gives. */
public sealed interface Compilation
    permits Circuit, Compilation.OverBudget, Compilation.Impossible {

  /**
   * The model is too wide to compile.
   *
   * @param predicted the number of table entries that compiling would make
   * @param budget the number that was allowed
   */
  record OverBudget(double predicted, double budget) implements Compilation {}

  /** The evidence that the model was to be compiled for has probability 0. */
  record Impossible() implements Compilation {}
}
