package org.faultwright.planning;

import java.util.List;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;

/** What came of reading a shop's preferences. */
public sealed interface ShopReading {

  /** All problems, sorted by place. */
  List<Problem> problems();

  /** The text of the file, for showing problems. */
  SourceTexts texts();

  /** The problems as their author reads them; empty when there are none. */
  default String report() {
    return ProblemReport.of(problems(), texts());
  }

  /**
   * The preferences can be used.
   *
   * @param name what the shop calls itself
   * @param problems warnings only
   */
  record Readable(String name, Shop shop, List<Problem> problems, SourceTexts texts)
      implements ShopReading {

    /** Copies the list. */
    public Readable {
      problems = List.copyOf(problems);
    }
  }

  /**
   * The preferences cannot be used.
   *
   * @param problems at least one error
   */
  record Unreadable(List<Problem> problems, SourceTexts texts) implements ShopReading {

    /** Copies the list. */
    public Unreadable {
      problems = List.copyOf(problems);
    }
  }
}
