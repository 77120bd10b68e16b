package org.faultwright.pack;

/** Names a piece of history: drop, liquid, earlier work, age. */
public record HistoryId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public HistoryId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
