package org.faultwright.measurement.knowngood;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.measurement.table.TextCell;
import org.faultwright.measurement.table.TextTable;

/**
 * Reads what pins read on known-good boards. Used once.
 *
 * <p>A table has one row for each pin. The columns {@code point}, {@code net} and {@code pin} say
 * which it is, {@code unit} is the unit of bare numbers in its row, {@code limit} is {@code
 * at-least} or {@code at-most} where one limit is wanted, {@code note} is skipped. Every other
 * column is a board; in a table of one board it may be called {@code value}. Several tables are put
 * together: a pin is the same where its name is.
 *
 * <p>A cell holds a value with its unit, a bare number where the unit is stated, or {@code OL}.
 * Nothing, {@code -}, {@code GND} and {@code NC} mean that there is no reading.
 */
public final class BoardTables {

  private static final int LONGEST_ID = 64;

  private static final Map<String, Side> LIMITS =
      Map.of("both", Side.BOTH, "at-least", Side.AT_LEAST, "at-most", Side.AT_MOST);

  private final Optional<String> unit;
  private final List<TableProblem> problems = new ArrayList<>();
  private final Map<String, PinText> pins = new LinkedHashMap<>();
  private final Map<String, String> boards = new LinkedHashMap<>();

  private BoardTables(Optional<String> unit) {
    this.unit = unit;
  }

  /**
   * Reads tables.
   *
   * @param tables at least one
   * @param unit the unit of bare numbers in rows that state none, such as {@code mV}
   * @throws IllegalArgumentException when there is no table, or the unit is not known
   */
  public static BoardReadings read(List<TextTable> tables, Optional<String> unit) {
    if (tables.isEmpty()) {
      throw new IllegalArgumentException("tables must not be empty");
    }
    unit.ifPresent(u -> Quantity.parse("1 " + u));
    return new BoardTables(unit).read(tables);
  }

  private BoardReadings read(List<TextTable> tables) {
    tables.forEach(this::add);
    Set<Dimension> kinds =
        pins.values().stream().flatMap(p -> p.kind().stream()).collect(Collectors.toSet());
    List<PinReadings> readings = new ArrayList<>();
    for (PinText pin : pins.values()) {
      pin.readings(kinds, problems).ifPresent(readings::add);
    }
    return problems.isEmpty()
        ? new BoardReadings.Readable(readings, List.copyOf(boards.keySet()))
        : BoardReadings.Refused.of(problems);
  }

  private void add(TextTable table) {
    List<TableProblem> wrong = new ArrayList<>();
    BoardColumns columns = BoardColumns.of(table, wrong);
    columns.boards().forEach((column, board) -> claim(board, column, table, wrong));
    problems.addAll(wrong);
    if (!wrong.isEmpty()) {
      return;
    }
    Map<String, Long> often =
        table.rows().stream()
            .map(row -> plainId(table, row, columns))
            .collect(Collectors.groupingBy(Function.identity(), Collectors.counting()));
    Set<String> here = new LinkedHashSet<>();
    for (List<TextCell> row : table.rows()) {
      String plain = plainId(table, row, columns);
      Optional<String> pin = text(table, row, columns.pin());
      boolean shared = often.get(plain) > 1 && pin.filter(p -> !id(p).equals(plain)).isPresent();
      String id = shared ? id(plain + "-" + pin.get()) : plain;
      if (id.isEmpty()) {
        problem(table, row.get(0), "row does not say which pin it is", "name the pin");
      } else if (!here.add(id)) {
        problem(
            table,
            row.get(0),
            "pin '" + id + "' has a row already",
            "write its readings into one row, or call it otherwise");
      } else {
        addRow(table, row, columns, id);
      }
    }
  }

  private void claim(String board, int column, TextTable table, List<TableProblem> wrong) {
    String other = boards.putIfAbsent(board, table.name());
    if (other != null && !other.equals(table.name())) {
      wrong.add(
          TableProblem.at(
              table.name(),
              table.header().get(column - 1),
              "board " + TableProblem.quoted(board) + " is in " + other + " already",
              "give each board a name of its own"));
    } else if (other != null && table.header().get(column - 1).text().equalsIgnoreCase("value")) {
      wrong.add(
          TableProblem.at(
              table.name(),
              table.header().get(column - 1),
              "this table is given twice",
              "name each table once"));
    }
  }

  private void addRow(TextTable table, List<TextCell> row, BoardColumns columns, String id) {
    Optional<String> pin = text(table, row, columns.pin());
    Optional<String> net = text(table, row, columns.net());
    PinText readings = pins.computeIfAbsent(id, i -> new PinText(i, pin, net));
    if (!readings.isSamePin(pin)) {
      problem(
          table,
          row.get(0),
          "'%s' is pin %s here and pin %s in another table"
              .formatted(id, pin.orElse(""), readings.pin().orElse("")),
          "call them by different points");
      return;
    }
    Optional<TextCell> stated =
        columns.unit().map(c -> table.cell(row, c)).filter(c -> !c.isEmpty());
    if (stated.isPresent() && !isUnit(stated.get().text())) {
      problem(
          table,
          stated.get(),
          "unit " + TableProblem.quoted(stated.get().text()) + " is not known",
          "write for example V, mV or kohm");
      return;
    }
    Optional<TextCell> limit =
        columns.limit().map(c -> table.cell(row, c)).filter(c -> !c.isEmpty());
    if (limit.isPresent() && !LIMITS.containsKey(limit.get().text())) {
      problem(
          table,
          limit.get(),
          "limit " + TableProblem.quoted(limit.get().text()) + " is not known",
          "write at-least, at-most or both");
      return;
    }
    limit.ifPresent(l -> readings.limit(LIMITS.get(l.text())));
    Optional<String> ofRow = stated.map(TextCell::text).or(() -> unit);
    readings.expect(ofRow);
    columns
        .boards()
        .forEach(
            (column, board) ->
                readings.add(table.name(), board, table.cell(row, column), ofRow, problems));
    readings.lastRow(table.name(), row.get(0));
  }

  private static boolean isUnit(String text) {
    try {
      Quantity.parse("1 " + text);
      return true;
    } catch (IllegalArgumentException e) {
      return false;
    }
  }

  private static Optional<String> text(
      TextTable table, List<TextCell> row, Optional<Integer> column) {
    return column.map(c -> table.cell(row, c).text()).filter(t -> !t.isEmpty());
  }

  private static String plainId(TextTable table, List<TextCell> row, BoardColumns columns) {
    for (int column : columns.namesOfPins()) {
      String id = id(table.cell(row, column).text());
      if (!id.isEmpty()) {
        return id;
      }
    }
    return "";
  }

  /** A name as packs spell it: {@code D+} becomes {@code d-plus}, {@code 7} becomes pin-7. */
  static String id(String text) {
    String id =
        text.strip()
            .toLowerCase(java.util.Locale.ROOT)
            .replaceAll("\\+$", "-plus")
            .replaceAll("-$", "-minus")
            .replaceAll("[^a-z0-9]+", "-")
            .replaceAll("^-+|-+$", "");
    if (id.matches("[0-9]+")) {
      id = "pin-" + id;
    }
    return id.length() > LONGEST_ID ? id.substring(0, LONGEST_ID).replaceAll("-+$", "") : id;
  }

  private void problem(TextTable table, TextCell cell, String message, String wayOut) {
    problems.add(TableProblem.at(table.name(), cell, message, wayOut));
  }
}
