package org.faultwright.pack;

/** Names a point where a reading is taken. */
public record PointId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public PointId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
