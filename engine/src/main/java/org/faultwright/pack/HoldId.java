package org.faultwright.pack;

/** Names a hold. */
public record HoldId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public HoldId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
