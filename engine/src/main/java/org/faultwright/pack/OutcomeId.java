package org.faultwright.pack;

/** Names an outcome of a step. */
public record OutcomeId(String value) implements Id {

  /** Default name of the outcome of a two-outcome observation that speaks for the fault. */
  public static final OutcomeId POSITIVE = new OutcomeId("positive");

  /** Default name of the outcome of a two-outcome observation that speaks against the fault. */
  public static final OutcomeId NEGATIVE = new OutcomeId("negative");

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public OutcomeId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
