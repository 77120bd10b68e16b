package org.faultwright.pack;

/** Names a source of numbers: a standard, a data sheet, a handbook. */
public record SourceId(String value) implements Id {

  /**
   * Checks the spelling.
   *
   * @throws IllegalArgumentException when {@code value} is not spelt as {@link Id} says
   */
  public SourceId {
    Id.check(value);
  }

  @Override
  public String toString() {
    return value;
  }
}
