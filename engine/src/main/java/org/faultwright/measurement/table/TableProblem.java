package org.faultwright.measurement.table;

import java.util.Comparator;

/**
 * Something wrong with a table, and the way out.
 *
 * @param table the table as the caller named it
 * @param row as a spreadsheet counts, from 1
 * @param column from 1
 * @param message one sentence without a full stop
 * @param wayOut what to do about it
 */
public record TableProblem(String table, int row, int column, String message, String wayOut)
    implements Comparable<TableProblem> {

  private static final int LONGEST_QUOTE = 40;

  /** A problem of one cell. */
  public static TableProblem at(String table, TextCell cell, String message, String wayOut) {
    return new TableProblem(table, cell.row(), cell.column(), message, wayOut);
  }

  /** A text out of a table in quotes, cut where it is long, without signs that act on a screen. */
  public static String quoted(String text) {
    String shown = text.length() > LONGEST_QUOTE ? text.substring(0, LONGEST_QUOTE) + "..." : text;
    return "'" + shown.replaceAll("[\\p{Cntrl}\\p{Cf}\\p{Co}\\p{Cn}\\p{Cs}]", "?") + "'";
  }

  @Override
  public int compareTo(TableProblem other) {
    return Comparator.comparing(TableProblem::table)
        .thenComparingInt(TableProblem::row)
        .thenComparingInt(TableProblem::column)
        .thenComparing(TableProblem::message)
        .compare(this, other);
  }

  /** For example {@code boards.csv: row 7, column 3: unit is missing; write 0.452 V}. */
  @Override
  public String toString() {
    return table + ": row " + row + ", column " + column + ": " + message + "; " + wayOut;
  }
}
