package org.faultwright.pack;

/** Names a board variant. */
public record BoardId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public BoardId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
