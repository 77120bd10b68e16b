package org.faultwright.pack.reader;

import java.util.List;
import org.faultwright.pack.Pack;
import org.faultwright.pack.check.Positions;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;

/** What came of reading a pack. */
public sealed interface PackReading {

  /** All problems, sorted by place. */
  List<Problem> problems();

  /** The texts of the pack and its fragments, for showing problems. */
  SourceTexts texts();

  /** The problems as their author reads them; empty when there are none. */
  default String report() {
    return ProblemReport.of(problems(), texts());
  }

  /**
   * This result, where the pack can be used.
   *
   * @throws IllegalArgumentException with the problems as their author reads them, where it cannot
   */
  default Readable readable() {
    if (this instanceof Readable readable) {
      return readable;
    }
    throw new IllegalArgumentException("pack must be free of errors:\n" + report());
  }

  /**
   * The pack can be used.
   *
   * @param at where its statements stand
   * @param problems warnings only
   */
  record Readable(Pack pack, Positions at, List<Problem> problems, SourceTexts texts)
      implements PackReading {

    /** Copies the list. */
    public Readable {
      problems = List.copyOf(problems);
    }
  }

  /**
   * The pack cannot be used.
   *
   * @param problems at least one error
   */
  record Unreadable(List<Problem> problems, SourceTexts texts) implements PackReading {

    /** Copies the list. */
    public Unreadable {
      problems = List.copyOf(problems);
    }
  }
}
