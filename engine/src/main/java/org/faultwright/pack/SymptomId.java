package org.faultwright.pack;

/** Names a symptom: seen or heard without instruments. */
public record SymptomId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public SymptomId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
