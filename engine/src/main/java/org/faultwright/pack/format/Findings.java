package org.faultwright.pack.format;

import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Consumer;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Severity;

/** Takes problems as they are found, up to a number that nobody will read to the end. */
public final class Findings implements Consumer<Problem> {

  /** Most problems that are taken. */
  public static final int MOST = 200;

  /** Id of the problem that says that there are more. */
  public static final String TOO_MANY = "too-many-problems";

  /** There are enough problems. */
  public static final class Enough extends RuntimeException {
    private Enough() {
      super(null, null, false, false);
    }
  }

  private final TreeSet<Problem> problems = new TreeSet<>();

  /**
   * Takes a problem.
   *
   * @throws Enough when there are {@value #MOST} of them
   */
  @Override
  public void accept(Problem problem) {
    problems.add(problem);
    if (problems.size() >= MOST) {
      problems.add(
          new Problem(
              TOO_MANY,
              problem.severity(),
              problem.where(),
              "reading stopped here, after " + MOST + " problems",
              Optional.of("mend those first, then read it again")));
      throw new Enough();
    }
  }

  /** All problems, sorted by place, each once. */
  public List<Problem> sorted() {
    return List.copyOf(problems);
  }

  /** Whether there is an error among them. */
  public boolean haveErrors() {
    return problems.stream().anyMatch(p -> p.severity() == Severity.ERROR);
  }
}
