package org.faultwright.interchange;

import java.util.List;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;

/**
 * What comes of reading a file in an open format.
 *
 * @param <T> what the file holds
 */
public sealed interface Reading<T> {

  /** All problems, sorted by place. */
  List<Problem> problems();

  /** The text, to show them in. */
  SourceTexts texts();

  /** The problems as they are shown; empty where there are none. */
  default String report() {
    return ProblemReport.of(problems(), texts());
  }

  /** It could be read; there may be warnings. */
  record Readable<T>(T value, List<Problem> problems, SourceTexts texts) implements Reading<T> {
    /** Sorts the problems. */
    public Readable {
      problems = ProblemReport.sorted(problems);
    }
  }

  /** It could not be read. */
  record Unreadable<T>(List<Problem> problems, SourceTexts texts) implements Reading<T> {
    /** Sorts the problems. */
    public Unreadable {
      problems = ProblemReport.sorted(problems);
    }
  }
}
