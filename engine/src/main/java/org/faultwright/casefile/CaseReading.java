package org.faultwright.casefile;

import java.util.List;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;

/** What came of reading a case. */
public sealed interface CaseReading {

  /** All problems, sorted by place. */
  List<Problem> problems();

  /** The text of the case, for showing problems. */
  SourceTexts texts();

  /** The problems as their author reads them; empty when there are none. */
  default String report() {
    return ProblemReport.of(problems(), texts());
  }

  /**
   * The case can be used.
   *
   * @param pack the pack that it has been read with
   * @param problems warnings only
   */
  record Readable(CaseFile caseFile, Pack pack, List<Problem> problems, SourceTexts texts)
      implements CaseReading {

    /** Copies the list. */
    public Readable {
      problems = List.copyOf(problems);
    }
  }

  /**
   * The case cannot be used.
   *
   * @param problems at least one error
   */
  record Unreadable(List<Problem> problems, SourceTexts texts) implements CaseReading {

    /** Copies the list. */
    public Unreadable {
      problems = List.copyOf(problems);
    }
  }
}
