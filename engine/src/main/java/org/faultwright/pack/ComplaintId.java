package org.faultwright.pack;

/** Names a complaint: what the customer reports. */
public record ComplaintId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public ComplaintId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
