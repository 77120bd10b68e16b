package org.faultwright.pack;

/** Names an activity that a hold can forbid. */
public record ActivityId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public ActivityId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
