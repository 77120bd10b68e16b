package org.faultwright.pack;

/** Names a switch: one independent state of the bench. */
public record SwitchId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public SwitchId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
