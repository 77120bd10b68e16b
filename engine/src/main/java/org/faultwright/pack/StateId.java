package org.faultwright.pack;

/** Names a true state behind an outcome or a reading. */
public record StateId(String value) implements Id {

  /** The state of a healthy device, in force when no other state is. */
  public static final StateId NORMAL = new StateId("normal");

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public StateId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
