package org.faultwright.pack;

/** Names a caution. */
public record CautionId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public CautionId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
