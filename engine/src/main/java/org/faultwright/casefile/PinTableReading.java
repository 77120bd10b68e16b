package org.faultwright.casefile;

import java.util.List;
import org.faultwright.measurement.table.TableProblem;

/** What came of reading a pin table: all of it, or what is wrong with it. */
public sealed interface PinTableReading {

  /** The table can be used. */
  record Readable(PinTable table) implements PinTableReading {}

  /**
   * Nothing of the table is taken.
   *
   * @param problems at least one, in the order of rows and columns
   */
  record Refused(List<TableProblem> problems) implements PinTableReading {

    /** Copies the list. */
    public Refused {
      problems = List.copyOf(problems);
    }
  }
}
