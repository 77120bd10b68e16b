package org.faultwright.measurement.table;

import java.util.List;

/** What came of reading a table: all of it, or what is wrong with it. */
public sealed interface TableReading {

  /** The table could be read. */
  record Readable(TextTable table) implements TableReading {}

  /**
   * Nothing of the table is taken.
   *
   * @param problems at least one, in the order of rows and columns
   */
  record Refused(List<TableProblem> problems) implements TableReading {

    /** Checks that there is a reason. */
    public Refused {
      problems = problems.stream().sorted().toList();
      if (problems.isEmpty()) {
        throw new IllegalArgumentException("problems must not be empty");
      }
    }
  }
}
