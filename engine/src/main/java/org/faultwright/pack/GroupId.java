package org.faultwright.pack;

/** Names a `one-of` group of causes. */
public record GroupId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public GroupId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
