package org.faultwright.measurement.knowngood;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.measurement.table.TextCell;
import org.faultwright.measurement.table.TextTable;

/** Which column of a table is what: some names are known, and every other one is a board's. */
record BoardColumns(
    Optional<Integer> point,
    Optional<Integer> pin,
    Optional<Integer> net,
    Optional<Integer> unit,
    Optional<Integer> limit,
    Map<Integer, String> boards) {

  private static final Set<String> KNOWN = Set.of("point", "pin", "net", "unit", "limit", "note");

  /** One board alone; it is called as its table is. */
  private static final String VALUE = "value";

  static BoardColumns of(TextTable table, List<TableProblem> problems) {
    Map<Integer, String> boards = new LinkedHashMap<>();
    List<String> seen = new ArrayList<>();
    for (TextCell title : table.header()) {
      String name = title.text().toLowerCase(Locale.ROOT);
      if (seen.contains(name)) {
        problems.add(
            TableProblem.at(
                table.name(),
                title,
                "two columns are called " + TableProblem.quoted(title.text()),
                "give each board a name of its own"));
      }
      seen.add(name);
      if (!KNOWN.contains(name)) {
        boards.put(title.column(), name.equals(VALUE) ? file(table.name()) : title.text());
      }
    }
    BoardColumns columns =
        new BoardColumns(
            table.column("point"),
            table.column("pin"),
            table.column("net"),
            table.column("unit"),
            table.column("limit"),
            boards);
    TextCell first = table.header().get(0);
    if (columns.namesOfPins().isEmpty()) {
      problems.add(
          TableProblem.at(
              table.name(),
              first,
              "no column says which pin it is",
              "call one 'point', 'net' or 'pin'"));
    } else if (boards.isEmpty()) {
      problems.add(
          TableProblem.at(
              table.name(),
              first,
              "no column holds readings",
              "add one for each board, or one called 'value' for one board alone"));
    }
    return columns;
  }

  private static String file(String path) {
    return path.substring(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
  }

  /** The columns that may name the point, the best first. */
  List<Integer> namesOfPins() {
    List<Integer> names = new ArrayList<>();
    point.ifPresent(names::add);
    net.ifPresent(names::add);
    pin.ifPresent(names::add);
    return names;
  }
}
