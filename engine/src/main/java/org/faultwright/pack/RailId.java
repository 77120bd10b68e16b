package org.faultwright.pack;

/** Names a supply rail. */
public record RailId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public RailId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
