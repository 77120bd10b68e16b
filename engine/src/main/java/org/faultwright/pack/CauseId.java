package org.faultwright.pack;

/** Names a cause: something wrong with the device, its use or its surroundings. */
public record CauseId(String value) implements NodeId {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public CauseId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
