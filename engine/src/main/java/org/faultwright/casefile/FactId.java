package org.faultwright.casefile;

/**
 * Names a fact of a case: its place in the order of telling.
 *
 * @param number from 1
 */
public record FactId(int number) implements Comparable<FactId> {

  /** Checks that numbers count from 1. */
  public FactId {
    if (number < 1) {
      throw new IllegalArgumentException("fact number must be at least 1: " + number);
    }
  }

  @Override
  public int compareTo(FactId other) {
    return Integer.compare(number, other.number);
  }

  @Override
  public String toString() {
    return "#" + number;
  }
}
