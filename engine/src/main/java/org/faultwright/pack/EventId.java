package org.faultwright.pack;

/** Names an intermediate event. */
public record EventId(String value) implements NodeId {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public EventId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
