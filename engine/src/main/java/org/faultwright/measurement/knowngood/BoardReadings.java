package org.faultwright.measurement.knowngood;

import java.util.List;
import org.faultwright.measurement.table.TableProblem;

/** What came of reading tables of known-good boards: all of them, or what is wrong with them. */
public sealed interface BoardReadings {

  /**
   * All tables could be read.
   *
   * @param pins in the order in which they are first met
   * @param boards the names of the boards, in that order
   */
  record Readable(List<PinReadings> pins, List<String> boards) implements BoardReadings {

    /** Copies the lists. */
    public Readable {
      pins = List.copyOf(pins);
      boards = List.copyOf(boards);
    }
  }

  /**
   * Nothing is taken.
   *
   * @param problems at least one, by table, row and column; at most {@value #MOST_PROBLEMS}
   * @param more how many there are besides; far more than that are not counted
   */
  record Refused(List<TableProblem> problems, int more) implements BoardReadings {

    /** Checks that there is a reason. */
    public Refused {
      problems = List.copyOf(problems);
      if (problems.isEmpty()) {
        throw new IllegalArgumentException("problems must not be empty");
      }
    }

    static Refused of(List<TableProblem> all) {
      List<TableProblem> shown = all.stream().sorted().limit(MOST_PROBLEMS).toList();
      return new Refused(shown, all.size() - shown.size());
    }
  }

  /** More than so many problems have one cause. */
  int MOST_PROBLEMS = 20;
}
