package org.faultwright.faulttree;

/** A diagram would grow beyond what is allowed. Never leaves the package. */
final class OverBudgetException extends Exception {
  private static final long serialVersionUID = 1;

  OverBudgetException() {
    super("", null, false, false);
  }
}
