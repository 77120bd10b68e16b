package org.faultwright.problem;

import java.util.Comparator;

/**
 * A stretch of one line of a file.
 *
 * @param file the file as the caller named it; {@code -} for standard input
 * @param line line number, from 1
 * @param column column of the first character, from 1
 * @param length number of characters, at least 1
 */
public record Span(String file, int line, int column, int length) implements Comparable<Span> {

  /** Checks that the numbers count from 1. */
  public Span {
    if (line < 1 || column < 1 || length < 1) {
      throw new IllegalArgumentException(
          "line, column and length must be at least 1: " + line + ", " + column + ", " + length);
    }
  }

  @Override
  public int compareTo(Span other) {
    return Comparator.comparing(Span::file)
        .thenComparingInt(Span::line)
        .thenComparingInt(Span::column)
        .thenComparingInt(Span::length)
        .compare(this, other);
  }
}
