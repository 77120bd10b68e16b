package org.faultwright.pack;

/** Names a part that can be replaced. */
public record PartId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public PartId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
