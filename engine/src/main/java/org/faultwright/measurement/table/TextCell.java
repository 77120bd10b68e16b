package org.faultwright.measurement.table;

/**
 * One cell of a table.
 *
 * @param row as a spreadsheet counts, from 1; the header is a row, and so is an empty line
 * @param column from 1
 * @param text without white space around it; may be empty
 */
public record TextCell(int row, int column, String text) {

  /** Checks that the numbers count from 1, and takes the white space away. */
  public TextCell {
    if (row < 1 || column < 1) {
      throw new IllegalArgumentException(
          "row and column must be at least 1: " + row + ", " + column);
    }
    text = text.strip();
  }

  /** Whether nothing is written in it. */
  public boolean isEmpty() {
    return text.isEmpty();
  }
}
