package org.faultwright.pack;

/** Names something the customer must agree to. */
public record ConsentId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public ConsentId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
