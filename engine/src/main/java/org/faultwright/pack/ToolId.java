package org.faultwright.pack;

/** Names a tool. */
public record ToolId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public ToolId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
