package org.faultwright.pack;

/** Names an instrument. */
public record InstrumentId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public InstrumentId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
