package org.faultwright.casefile;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.table.TableProblem;
import org.faultwright.pack.Point;
import org.faultwright.pack.StepId;

/**
 * A pin table as it was noted: readings of one connector, taken in one go. Immutable.
 *
 * @param rows the pins that were read, in the order of noting; a pin may stand there twice
 * @param remarks what is odd about the table, though it can be used
 * @param turned how it would fit far better, if it was noted the other way round
 */
public record PinTable(
    StepId step, List<Row> rows, List<TableProblem> remarks, Optional<Turned> turned) {

  /** Copies the lists. */
  public PinTable {
    rows = List.copyOf(rows);
    remarks = List.copyOf(remarks);
  }

  /**
   * A pin that was read.
   *
   * @param row where it stands in the table, from 1
   */
  public record Row(int row, Point point, ReadingValue value) {}

  /** How the pins of a table may have been counted wrongly. */
  public enum Way {
    /** From the other end: the last pin for the first. */
    FROM_THE_OTHER_END,
    /** Mirrored: each pin for its neighbour in the other row, odd for even. */
    ROWS_SWAPPED,
    /** Mirrored: the pins of the first half for those of the second. */
    HALVES_SWAPPED;

    /** The pin that was read where this one was noted, of a connector with so many pins. */
    public int pin(int noted, int pins) {
      return switch (this) {
        case FROM_THE_OTHER_END -> pins + 1 - noted;
        case ROWS_SWAPPED -> noted % 2 == 0 ? noted - 1 : noted + 1;
        case HALVES_SWAPPED -> noted <= pins / 2 ? noted + pins / 2 : noted - pins / 2;
      };
    }

    /** Its name where it is written down: {@code from-the-other-end}. */
    public String key() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** In words, as in "it fits better if ...". */
    public String words() {
      return switch (this) {
        case FROM_THE_OTHER_END -> "the pins were counted from the other end";
        case ROWS_SWAPPED -> "the socket was seen mirrored: odd pins taken for even ones";
        case HALVES_SWAPPED -> "the socket was seen mirrored: one row of pins for the other";
      };
    }
  }

  /**
   * A table that fits far better when it is turned.
   *
   * @param timesBetter how many times likelier the readings are then, at least 1000
   */
  public record Turned(Way way, double timesBetter) {}

  /** The readings as facts, all taken under the same setup. */
  public List<Fact.ReadingTaken> facts(Fact.Setup setup) {
    return rows.stream()
        .map(
            r ->
                new Fact.ReadingTaken(
                    r.point().id(), r.value(), java.util.OptionalDouble.empty(), setup))
        .toList();
  }
}
