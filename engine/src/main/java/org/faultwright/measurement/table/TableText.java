package org.faultwright.measurement.table;

import static org.faultwright.measurement.table.TextTable.MOST_BYTES;
import static org.faultwright.measurement.table.TextTable.MOST_CELLS;
import static org.faultwright.measurement.table.TextTable.MOST_CHARACTERS;
import static org.faultwright.measurement.table.TextTable.MOST_COLUMNS;
import static org.faultwright.measurement.table.TextTable.MOST_ROWS;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/** From bytes to a table. Used once. */
final class TableText {

  private static final String SAVE_AGAIN = "save the table as CSV in UTF-8";
  private static final char BYTE_ORDER_MARK = '\ufeff';

  private final String name;

  /** What is wrong; it ends the reading. */
  private static final class Wrong extends Exception {
    private static final long serialVersionUID = 1L;
    private final transient TableProblem problem;

    Wrong(TableProblem problem) {
      super(problem.message());
      this.problem = problem;
    }
  }

  TableText(String name) {
    this.name = name;
  }

  TableReading read(byte[] bytes) {
    try {
      return new TableReading.Readable(table(text(bytes)));
    } catch (Wrong e) {
      return new TableReading.Refused(List.of(e.problem));
    }
  }

  private String text(byte[] bytes) throws Wrong {
    if (bytes.length > MOST_BYTES) {
      throw wrong(
          1,
          1,
          "table has " + bytes.length + " bytes, and at most " + MOST_BYTES + " are read",
          "part it into several");
    }
    if (startsWith(bytes, 'P', 'K', 3, 4)) {
      throw wrong(1, 1, "this is a packed file, perhaps a spreadsheet, and no text", SAVE_AGAIN);
    }
    Charset charset =
        startsWith(bytes, 0xff, 0xfe)
            ? StandardCharsets.UTF_16LE
            : startsWith(bytes, 0xfe, 0xff) ? StandardCharsets.UTF_16BE : StandardCharsets.UTF_8;
    String text = decode(bytes, charset);
    return !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
  }

  private String decode(byte[] bytes, Charset charset) throws Wrong {
    CharBuffer chars = CharBuffer.allocate(bytes.length + 1);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CoderResult result =
        charset
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT)
            .decode(in, chars, true);
    String text = chars.flip().toString();
    if (result.isError()) {
      throw wrongSign(text, "a sign here is not " + charset.name());
    }
    int nothing = text.indexOf('\0');
    if (nothing >= 0) {
      throw wrongSign(text.substring(0, nothing), "here is a sign that no text has (zero)");
    }
    return text;
  }

  /** At the place where the text before it ends; quotes do not matter so early. */
  private Wrong wrongSign(String before, String message) {
    int row = (int) before.chars().filter(c -> c == '\n').count() + 1;
    String line = before.substring(before.lastIndexOf('\n') + 1);
    String headerLine = headerLine(before);
    char separator = separator(headerLine.isEmpty() ? line : headerLine);
    int column = (int) line.chars().filter(c -> c == separator).count() + 1;
    return wrong(row, column, message, SAVE_AGAIN);
  }

  private static boolean startsWith(byte[] bytes, int... start) {
    if (bytes.length < start.length) {
      return false;
    }
    for (int i = 0; i < start.length; i++) {
      if ((bytes[i] & 0xff) != start[i]) {
        return false;
      }
    }
    return true;
  }

  private static boolean isRemark(String line) {
    return line.startsWith("#") || line.startsWith("\"#");
  }

  private static String headerLine(String text) {
    return text.lines().filter(l -> !l.isBlank() && !isRemark(l)).findFirst().orElse("");
  }

  private static char separator(String header) {
    String unquoted = header.replaceAll("\"[^\"]*\"", "");
    return unquoted.indexOf('\t') >= 0 ? '\t' : unquoted.indexOf(';') >= 0 ? ';' : ',';
  }

  private TextTable table(String text) throws Wrong {
    char separator = separator(headerLine(text));
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(separator)
            .setIgnoreEmptyLines(false)
            .setIgnoreSurroundingSpaces(separator != '\t')
            .get();
    List<TextCell> header = List.of();
    List<List<TextCell>> rows = new ArrayList<>();
    int row = 0;
    int count = 0;
    try (CSVParser parser = CSVParser.parse(new StringReader(text), format)) {
      for (CSVRecord record : parser) {
        row++;
        if (isRemark(record.get(0).strip()) || isBlank(record)) {
          continue;
        }
        if (header.isEmpty()) {
          header = header(cells(record, row, MOST_COLUMNS), separator);
        } else if (rows.size() == MOST_ROWS) {
          throw wrong(row, 1, "table has more than " + MOST_ROWS + " rows", "part it into several");
        } else {
          List<TextCell> cells = cells(record, row, header.size());
          count += cells.size();
          if (count > MOST_CELLS) {
            throw wrong(
                row, 1, "table has more than " + MOST_CELLS + " cells", "part it into several");
          }
          rows.add(cells);
        }
      }
    } catch (UncheckedIOException | IOException e) {
      throw wrong(
          row + 1,
          columnOfQuote(text, row, separator),
          "quotes do not pair in this row",
          "a cell in quotes ends with one, and a quote within is doubled");
    }
    if (header.isEmpty()) {
      throw wrong(1, 1, "table is empty", "begin it with a row of column names");
    }
    if (rows.isEmpty()) {
      throw wrong(
          header.get(0).row(), 1, "table has no rows below its column names", "add the readings");
    }
    return new TextTable(name, header, rows);
  }

  /** The column of the last cell of a line that begins with a quote; 1 where none does. */
  private static int columnOfQuote(String text, int row, char separator) {
    String line = text.lines().skip(row).findFirst().orElse("");
    int column = 1;
    int found = 1;
    boolean quoted = false;
    boolean begins = true;
    for (char c : line.toCharArray()) {
      if (c == '"') {
        found = begins ? column : found;
        quoted = !quoted;
        begins = false;
      } else if (c == separator && !quoted) {
        column++;
        begins = true;
      } else {
        begins &= c == ' ';
      }
    }
    return found;
  }

  private static boolean isBlank(CSVRecord record) {
    return record.stream().allMatch(String::isBlank);
  }

  private List<TextCell> header(List<TextCell> cells, char separator) throws Wrong {
    Optional<TextCell> nameless = cells.stream().filter(TextCell::isEmpty).findFirst();
    // spreadsheets save columns that once held something
    int last = cells.size();
    while (cells.get(last - 1).isEmpty()) {
      last--;
    }
    if (nameless.isPresent() && nameless.get().column() < last) {
      throw wrong(
          nameless.get().row(),
          nameless.get().column(),
          "column has no name",
          "write one into the first row");
    }
    if (last == 1 && separator == ',' && cells.get(0).text().contains("|")) {
      throw wrong(
          cells.get(0).row(),
          1,
          "cells are parted by something else than comma, semicolon or tab",
          SAVE_AGAIN);
    }
    return cells.subList(0, last);
  }

  private List<TextCell> cells(CSVRecord record, int row, int most) throws Wrong {
    List<TextCell> cells = new ArrayList<>();
    for (String text : record) {
      TextCell cell = new TextCell(row, cells.size() + 1, text);
      if (cell.column() > most) {
        if (cell.isEmpty()) {
          continue;
        }
        throw most == MOST_COLUMNS
            ? wrong(row, cell.column(), "table has more than " + most + " columns", "part it")
            : wrong(
                row,
                cell.column(),
                "row has more cells than there are columns (" + most + ")",
                "put a value with a comma in quotes, or part cells by semicolons or tabs");
      }
      if (cell.text().length() > MOST_CHARACTERS) {
        throw wrong(
            row,
            cell.column(),
            "cell has more than " + MOST_CHARACTERS + " characters",
            "look for a quote that is not closed");
      }
      cells.add(cell);
    }
    return cells;
  }

  private Wrong wrong(int row, int column, String message, String wayOut) {
    return new Wrong(new TableProblem(name, row, column, message, wayOut));
  }
}
