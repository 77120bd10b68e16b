package org.faultwright.pack;

/** Names a step: anything done at the bench. */
public record StepId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public StepId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
