package org.faultwright.casefile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.faultwright.measurement.DisplayText;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.measurement.table.TableReading;
import org.faultwright.measurement.table.TextCell;
import org.faultwright.measurement.table.TextTable;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.problem.Nearest;

/**
 * Reads the pin table of one step, from a table of text or pin by pin.
 *
 * <p>A table has a column {@code pin} (a number, a net or the id of a point; {@code net} and {@code
 * point} are other names for it) and a column {@code value}, whose heading may state the unit of
 * bare numbers: {@code value [mV]}; so may a column {@code unit}. A row without a value says
 * nothing. {@code GND} and {@code NC} stand for pins that are ground or connected to nothing. The
 * name of one of the point's states stands for what was seen without a number, such as {@code
 * unsteady}.
 *
 * <p>Nothing is taken of a table with a mistake. Immutable.
 */
public final class PinTableReader {

  private static final Pattern VALUE =
      Pattern.compile("(?i)(?:value|reading)(?: ?[\\[(](.{1,8})[\\])])?");
  private static final List<String> NAMES = List.of("pin", "net", "point");
  private static final String GROUND = "GND";
  private static final String UNUSED = "NC";

  private final Pack pack;
  private final Step step;
  private final Step.PinTable table;
  private final PinNames names;

  /**
   * A reader.
   *
   * @param board the board variant, where it is known
   * @throws IllegalArgumentException when the pack has no such step, or no readings are taken in it
   */
  public PinTableReader(Pack pack, StepId step, Optional<BoardId> board) {
    this.pack = pack;
    this.step = pack.steps().get(step);
    if (this.step == null || this.step.pinTable().isEmpty()) {
      throw new IllegalArgumentException("step must take readings: " + step);
    }
    this.table = this.step.pinTable().get();
    this.names = new PinNames(table, board);
  }

  /**
   * Reads a table of text.
   *
   * @param turned the way in which its pins were counted wrongly, once that has been found out
   */
  public PinTableReading read(TableReading text, Optional<PinTable.Way> turned) {
    if (text instanceof TableReading.Refused refused) {
      return new PinTableReading.Refused(refused.problems());
    }
    TextTable found = ((TableReading.Readable) text).table();
    Optional<Integer> name =
        NAMES.stream().map(found::column).flatMap(Optional::stream).findFirst();
    Optional<Matcher> heading = Optional.empty();
    int value = 0;
    for (TextCell cell : found.header()) {
      Matcher m = VALUE.matcher(cell.text());
      if (m.matches() && heading.isEmpty()) {
        heading = Optional.of(m);
        value = cell.column();
      }
    }
    if (name.isEmpty() || heading.isEmpty()) {
      return refused(
          TableProblem.at(
              found.name(),
              found.header().get(0),
              "a pin table has the columns 'pin' and 'value', and this has "
                  + String.join(
                      ", ",
                      found.header().stream().map(c -> TableProblem.quoted(c.text())).toList()),
              "name them so in the first row; 'value [mV]' says the unit of bare numbers"));
    }
    Optional<String> unit = Optional.ofNullable(heading.get().group(1));
    Optional<Integer> units = found.column("unit");
    Notes notes = new Notes(found.name(), turned);
    for (List<TextCell> row : found.rows()) {
      Optional<String> own = units.map(c -> found.cell(row, c).text()).filter(u -> !u.isEmpty());
      notes.add(found.cell(row, name.get()), found.cell(row, value), own.or(() -> unit));
    }
    return notes.reading();
  }

  /**
   * Reads pin by pin.
   *
   * @param values what was noted at each pin, in order
   */
  public PinTableReading read(Map<String, String> values, Optional<PinTable.Way> turned) {
    Notes notes = new Notes("pins", turned);
    int row = 1;
    for (Map.Entry<String, String> e : values.entrySet()) {
      notes.add(
          new TextCell(row, 1, e.getKey()), new TextCell(row, 2, e.getValue()), Optional.empty());
      row++;
    }
    return notes.reading();
  }

  private static PinTableReading refused(TableProblem problem) {
    return new PinTableReading.Refused(List.of(problem));
  }

  /** What has been noted so far. */
  private final class Notes {
    private final String file;
    private final Optional<PinTable.Way> turned;
    private final List<TableProblem> problems = new ArrayList<>();
    private final List<TableProblem> remarks = new ArrayList<>();
    private final List<PinTable.Row> rows = new ArrayList<>();
    private final List<TurnedTable.Noted> numbered = new ArrayList<>();
    private final Map<PinNames.Pin, Integer> seen = new LinkedHashMap<>();

    Notes(String file, Optional<PinTable.Way> turned) {
      this.file = file;
      this.turned = turned;
    }

    void add(TextCell name, TextCell value, Optional<String> unit) {
      if (value.isEmpty() && name.isEmpty()) {
        return;
      }
      Optional<PinNames.Pin> pin = pin(name);
      if (pin.isEmpty() || value.isEmpty()) {
        return;
      }
      if (pin.get() instanceof PinNames.Pin.Idle idle) {
        idle(name, value, unit, idle);
        return;
      }
      Point point = ((PinNames.Pin.Reads) pin.get()).point();
      Optional<ReadingValue> read = value(point, name, value, unit);
      if (read.isPresent()) {
        Integer before = seen.put(pin.get(), name.row());
        if (before != null) {
          remarks.add(
              TableProblem.at(
                  file,
                  name,
                  "pin "
                      + TableProblem.quoted(name.text())
                      + " stands in row "
                      + before
                      + " as well",
                  "both are taken, as two readings of it"));
        }
        rows.add(new PinTable.Row(name.row(), point, read.get()));
        if (!(read.get() instanceof ReadingValue.Named)) { // another pin may not have that state
          number(name).ifPresent(n -> numbered.add(new TurnedTable.Noted(n, read.get())));
        }
      }
    }

    /** The pin of a name; with the table turned, the pin that was read there. */
    private Optional<PinNames.Pin> pin(TextCell name) {
      if (name.isEmpty()) {
        problems.add(
            TableProblem.at(
                file, name, "the name of the pin is missing", "write its number or net"));
        return Optional.empty();
      }
      String text = name.text();
      if (turned.isPresent()) {
        Optional<Integer> number = number(name);
        if (number.isEmpty()) {
          problems.add(
              TableProblem.at(
                  file,
                  name,
                  "a table that is to be turned must give pins by number, and here is "
                      + TableProblem.quoted(text),
                  "write the pin's number"));
          return Optional.empty();
        }
        text = String.valueOf(turned.get().pin(number.get(), names.count()));
      }
      try {
        return Optional.of(names.of(text));
      } catch (IllegalArgumentException e) {
        problems.add(
            TableProblem.at(
                file,
                name,
                e.getMessage() + TableProblem.quoted(text) + " in step '" + step.id() + "'",
                names.wayOut(text)));
        return Optional.empty();
      }
    }

    private Optional<Integer> number(TextCell name) {
      String digits = name.text().replaceFirst("(?i)^pin *", "");
      return digits.matches("\\d{1,4}") && Integer.parseInt(digits) <= names.count()
          ? Optional.of(Integer.parseInt(digits))
          : Optional.empty();
    }

    private Optional<ReadingValue> value(
        Point point, TextCell name, TextCell value, Optional<String> unit) {
      boolean ground = value.text().equalsIgnoreCase(GROUND);
      if (ground || value.text().equalsIgnoreCase(UNUSED)) {
        problems.add(
            TableProblem.at(
                file,
                value,
                "pin "
                    + TableProblem.quoted(name.text())
                    + " ("
                    + point.title()
                    + ") is "
                    + (ground ? "no ground pin" : "a pin in use"),
                ground
                    ? "write what it reads, such as 0.000 V, or look at the numbering"
                    : "write what it reads, such as OL, or look at the numbering"));
        return Optional.empty();
      }
      Optional<ReadingValue.Named> named = point.named(value.text());
      if (named.isPresent()) {
        return named.map(n -> n);
      }
      try {
        return Optional.of(
            DisplayText.parse(value.text(), point.reference().dimension(), reads(), unit));
      } catch (IllegalArgumentException e) {
        problems.add(
            isWord(value.text())
                ? noState(point, value)
                : TableProblem.at(file, value, e.getMessage(), "write it as in " + example(point)));
        return Optional.empty();
      }
    }

    private TableProblem noState(Point point, TextCell value) {
      List<String> states = point.stateNames();
      String near = Nearest.didYouMean(value.text(), states);
      return TableProblem.at(
          file,
          value,
          TableProblem.quoted(value.text())
              + " is no value and no state of "
              + TableProblem.quoted(point.title()),
          near.isEmpty()
              ? "write it as in "
                  + example(point)
                  + ", or what was seen: "
                  + String.join(", ", states)
              : near);
    }

    private static boolean isWord(String text) {
      return text.codePoints().findFirst().stream().anyMatch(Character::isLetter);
    }

    private String example(Point point) {
      return reads() ? "0.452, 452 or OL" : point.reference().dimension().example();
    }

    private void idle(
        TextCell name, TextCell value, Optional<String> unit, PinNames.Pin.Idle idle) {
      String text = value.text();
      boolean said = text.equalsIgnoreCase(idle.ground() ? GROUND : UNUSED);
      try {
        ReadingValue read =
            said
                ? new ReadingValue.OverRange(TurnedTable.kind(table))
                : DisplayText.parse(text, TurnedTable.kind(table), reads(), unit);
        if (said && idle.ground()) {
          read = TurnedTable.nothing(table);
        }
        ReadingValue noted = read;
        number(name).ifPresent(n -> numbered.add(new TurnedTable.Noted(n, noted)));
        if (!said && idle.ground() != TurnedTable.isNothing(noted)) {
          remarks.add(
              TableProblem.at(
                  file,
                  value,
                  "pin "
                      + TableProblem.quoted(name.text())
                      + (idle.ground() ? " is ground" : " is connected to nothing")
                      + " and reads "
                      + noted,
                  idle.ground()
                      ? "look at the black lead and at the numbering"
                      : "look at the numbering, and for a bridge to a neighbour"));
        }
      } catch (IllegalArgumentException e) {
        problems.add(
            TableProblem.at(file, value, e.getMessage(), "write GND, NC or what it reads"));
      }
    }

    PinTableReading reading() {
      if (!problems.isEmpty()) {
        return new PinTableReading.Refused(problems.stream().sorted().toList());
      }
      Optional<PinTable.Turned> better =
          turned.isPresent()
              ? Optional.empty()
              : new TurnedTable(pack, step, names).better(numbered);
      return new PinTableReading.Readable(
          new PinTable(
              step.id(), rows, Stream.concat(remarks.stream(), overRange()).toList(), better));
    }

    /** Hardly ever are most lines of a connector open. */
    private Stream<TableProblem> overRange() {
      List<PinTable.Row> usual =
          rows.stream()
              .filter(
                  r ->
                      !(r.point().reference()
                          instanceof org.faultwright.measurement.Reference.OverRange))
              .toList();
      long over = usual.stream().filter(r -> r.value() instanceof ReadingValue.OverRange).count();
      if (over < 3 || over * 10 < usual.size() * 6) {
        return Stream.empty();
      }
      return Stream.of(
          new TableProblem(
              file,
              usual.get(0).row(),
              1,
              over + " of " + usual.size() + " pins read OL that should not",
              "look first whether the leads are put right, in which mode the meter is and whether"
                  + " its ground clip has contact"));
    }
  }

  private boolean reads() {
    return table
        .instrument()
        .map(pack.instruments()::get)
        .map(i -> i.meter().diode())
        .orElse(false);
  }
}
