package org.faultwright.measurement.table;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * A table of text with a header. Immutable.
 *
 * @param name how the caller calls it, for messages
 * @param header the names of the columns, at least one
 * @param rows each with at most as many cells as the header; rows without text are left out
 */
public record TextTable(String name, List<TextCell> header, List<List<TextCell>> rows) {

  /** Most rows below the header. */
  public static final int MOST_ROWS = 5_000;

  /** Most columns. */
  public static final int MOST_COLUMNS = 1_000;

  /** Most cells, the empty ones between others included. */
  public static final int MOST_CELLS = 500_000;

  /** Most characters in one cell. */
  public static final int MOST_CHARACTERS = 200;

  /** Most bytes of a whole table. */
  public static final int MOST_BYTES = 16 << 20;

  /** Copies the lists. */
  public TextTable {
    header = List.copyOf(header);
    rows = rows.stream().map(List::copyOf).toList();
  }

  /**
   * Reads a table. Cells are parted by tabs where the header has one, else by semicolons, else by
   * commas, and may stand in double quotes as in RFC 4180; a doubled quote within is one. A line
   * that begins with {@code #} is a remark, and the first other line with text is the header. A
   * byte-order mark says UTF-8 or UTF-16; without one it is UTF-8.
   *
   * @param name how to call it in messages
   */
  public static TableReading read(String name, byte[] bytes) {
    return new TableText(name).read(bytes);
  }

  /** The column of this name, in whatever case it is written; the first where there are several. */
  public Optional<Integer> column(String title) {
    return header.stream()
        .filter(c -> c.text().toLowerCase(Locale.ROOT).equals(title))
        .map(TextCell::column)
        .findFirst();
  }

  /** The cell of a row in a column; an empty one where the row ends before it. */
  public TextCell cell(List<TextCell> row, int column) {
    return column <= row.size() ? row.get(column - 1) : new TextCell(row(row), column, "");
  }

  /** The number of a row. */
  public static int row(List<TextCell> row) {
    return row.get(0).row();
  }

  /** The numbers of all columns. */
  public IntStream columns() {
    return IntStream.rangeClosed(1, header.size());
  }
}
