package org.faultwright.cli;

import java.util.List;
import java.util.Optional;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.pack.Pack;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;
import org.faultwright.problem.Span;

/** One fact on the command line, in the spelling of case files: {@code {outcome: x, is: y}}. */
final class FactArgument {

  /** What the fact is called in messages. */
  private static final String NAME = "--fact";

  private static final String LEAD = "  - ";

  private FactArgument() {}

  /**
   * Reads a fact.
   *
   * @throws Stopped when it is none, or speaks of what the pack does not have
   */
  static Fact read(Pack pack, String text) {
    if (text.lines().count() != 1) {
      throw Stopped.byUsage(
          "--fact takes one line, as in --fact '{symptom: lint-visible, is: present}'");
    }
    List<String> head = List.of("case: supposed", "format: 1", "pack: " + pack.id(), "facts:");
    String whole = String.join("\n", head) + "\n" + LEAD + text + "\n";
    CaseReading reading = new CaseReader(pack).read(YamlText.of(NAME, whole));
    if (reading instanceof CaseReading.Readable readable) {
      List<Told> told = readable.caseFile().facts();
      if (told.size() == 1) {
        return told.get(0).fact();
      }
    }
    List<Problem> problems =
        reading.problems().stream().map(p -> moved(p, head.size(), text)).toList();
    throw Stopped.byProblems(ProblemReport.of(problems, SourceTexts.NONE.with(NAME, text)));
  }

  /** The problem at its place in the argument instead of in the case made around it. */
  private static Problem moved(Problem problem, int lines, String text) {
    Optional<Span> where =
        problem
            .where()
            .map(
                at -> {
                  int column =
                      at.line() == lines + 1 ? Math.max(1, at.column() - LEAD.length()) : 1;
                  return new Span(NAME, 1, Math.min(column, text.length() + 1), at.length());
                });
    return new Problem(
        problem.id(), problem.severity(), where, problem.message(), problem.wayOut());
  }
}
