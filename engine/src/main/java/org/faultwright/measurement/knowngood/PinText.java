package org.faultwright.measurement.knowngood;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.measurement.table.TextCell;

/** The readings of one pin as they are gathered from the cells of tables. */
final class PinText {

  private static final Pattern BARE_NUMBER =
      Pattern.compile("[+\u2212-]?[0-9]*[.,]?[0-9]+([eE][+-]?[0-9]+)?");

  /**
   * The digits of a number with its point or the letter in place of one, without a power of ten.
   */
  private static final Pattern DIGITS =
      Pattern.compile("[+\u2212-]?(?<digits>[0-9]*(?:[^0-9eE+\\s\u2212-][0-9]+)?)(?<rest>.*)");

  private static final Set<String> NO_READING = Set.of("", "-", "GND", "NC");

  /** Who has so many has one cause for them; a table can have millions of cells. */
  private static final int MOST_PROBLEMS = 1_000;

  private final String id;
  private final Optional<String> pin;
  private final Optional<String> net;
  private final List<String> overRangeOn = new ArrayList<>();
  private final List<PinReadings.OnBoard> readings = new ArrayList<>();
  private Optional<Dimension> kind = Optional.empty();
  private Side side = Side.BOTH;
  private double step = Double.POSITIVE_INFINITY;
  private String table = "";
  private TextCell place = new TextCell(1, 1, "");

  PinText(String id, Optional<String> pin, Optional<String> net) {
    this.id = id;
    this.pin = pin;
    this.net = net;
  }

  Optional<String> pin() {
    return pin;
  }

  Optional<Dimension> kind() {
    return kind;
  }

  boolean isSamePin(Optional<String> other) {
    return pin.isEmpty() || other.isEmpty() || pin.equals(other);
  }

  /** A unit that a row states is of the kind of its readings, even where all are over-range. */
  void expect(Optional<String> unit) {
    if (kind.isEmpty()) {
      kind = unit.map(u -> Quantity.parse("1 " + u).dimension());
    }
  }

  /** Where its reference is to have limits. */
  void limit(Side side) {
    this.side = side;
  }

  /** Where it was last met, for problems of the pin as a whole. */
  void lastRow(String table, TextCell first) {
    this.table = table;
    this.place = first;
  }

  /** Takes one cell, unless something is wrong with it. */
  void add(
      String table,
      String board,
      TextCell cell,
      Optional<String> unit,
      List<TableProblem> problems) {
    String text = cell.text();
    if (problems.size() >= MOST_PROBLEMS) {
      return;
    }
    if (NO_READING.contains(text.toUpperCase(Locale.ROOT))) {
      return;
    }
    if (ReadingValue.isOverRange(text)) {
      overRangeOn.add(board);
      return;
    }
    boolean bare = BARE_NUMBER.matcher(text).matches();
    String whole = bare && unit.isPresent() ? text + " " + unit.get() : text;
    try {
      Quantity value = kind.isPresent() ? Quantity.parse(whole, kind.get()) : Quantity.parse(whole);
      kind = Optional.of(value.dimension());
      step = Math.min(step, step(whole));
      readings.add(new PinReadings.OnBoard(board, new ReadingValue.Measured(value)));
    } catch (IllegalArgumentException e) {
      problems.add(
          TableProblem.at(
              table,
              cell,
              "reading of '" + id + "' on board " + TableProblem.quoted(board) + ": " + said(e),
              bare && unit.isEmpty()
                  ? "write the unit into each cell or into a column 'unit', or give --unit"
                  : "mend the cell, or leave it empty where there is no reading"));
    }
  }

  /** What is wrong, without signs that act on a screen. */
  private static String said(IllegalArgumentException e) {
    return e.getMessage().replaceAll("\\p{Cntrl}|\\p{Cf}", "?");
  }

  /** The value of the last digit that is written: of {@code 0.450 V} a thousandth of a volt. */
  static double step(String text) {
    Matcher parts = DIGITS.matcher(text);
    if (!parts.matches() || parts.group("digits").isEmpty()) {
      return Double.POSITIVE_INFINITY;
    }
    String digits = parts.group("digits").replace(',', '.');
    String one = digits.substring(0, digits.length() - 1).replaceAll("[0-9]", "0") + "1";
    try {
      double si = Quantity.parse(one + parts.group("rest")).si();
      return si > 0 ? si : Double.POSITIVE_INFINITY;
    } catch (IllegalArgumentException e) { // a number with a last digit that is no value itself
      return Double.POSITIVE_INFINITY;
    }
  }

  /** The readings, where they are of one kind. */
  Optional<PinReadings> readings(Set<Dimension> kindsOfOthers, List<TableProblem> problems) {
    Optional<Dimension> dimension =
        kind.or(
            () ->
                kindsOfOthers.size() == 1 ? kindsOfOthers.stream().findFirst() : Optional.empty());
    if (dimension.isEmpty()) {
      if (overRangeOn.isEmpty()) {
        dimension = Optional.of(Dimension.VOLTAGE); // of no reading at all
      } else {
        problems.add(
            TableProblem.at(
                table,
                place,
                "nothing says of what kind the over-range of '" + id + "' is",
                "add a column 'unit', or give --unit"));
        return Optional.empty();
      }
    }
    List<PinReadings.OnBoard> all = new ArrayList<>(readings);
    for (String board : overRangeOn) {
      all.add(new PinReadings.OnBoard(board, new ReadingValue.OverRange(dimension.get())));
    }
    return Optional.of(
        new PinReadings(
            id, pin, net, dimension.get(), Double.isInfinite(step) ? 1 : step, side, all));
  }
}
