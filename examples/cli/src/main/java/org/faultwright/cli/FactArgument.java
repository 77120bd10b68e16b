package org.faultwright.cli;

import java.util.ArrayList;
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

  private static final String ITEM = "  - ";
  private static final String LIST = "facts: ";

  private FactArgument() {}

  /**
   * Reads a fact.
   *
   * @throws Stopped when it is none, or speaks of what the pack does not have
   */
  static Fact read(Pack pack, String text) {
    return read(pack, text, ITEM).get(0);
  }

  /**
   * Reads a fact, or several as a list: {@code [{outcome: x, is: y}, {did: z}]}.
   *
   * @throws Stopped when one is none, or speaks of what the pack does not have
   */
  static List<Fact> readSome(Pack pack, String text) {
    return read(pack, text, text.stripLeading().startsWith("[") ? LIST : ITEM);
  }

  private static List<Fact> read(Pack pack, String text, String lead) {
    if (text.lines().count() != 1) {
      throw Stopped.byUsage(
          "a fact takes one line, as in --fact '{symptom: lint-visible, is: present}'");
    }
    List<String> head =
        new ArrayList<>(List.of("case: supposed", "format: 1", "pack: " + pack.id()));
    if (lead.equals(ITEM)) {
      head.add("facts:");
    }
    String whole = String.join("\n", head) + "\n" + lead + text + "\n";
    CaseReading reading = new CaseReader(pack).read(YamlText.of(NAME, whole));
    if (reading instanceof CaseReading.Readable readable) {
      List<Told> told = readable.caseFile().facts();
      if (lead.equals(ITEM) ? told.size() == 1 : !told.isEmpty()) {
        return told.stream().map(Told::fact).toList();
      }
    }
    List<Problem> problems =
        reading.problems().stream().map(p -> moved(p, head.size(), lead, text)).toList();
    if (problems.isEmpty()) {
      throw Stopped.byUsage("there is no fact in '" + text + "'");
    }
    throw Stopped.byProblems(ProblemReport.of(problems, SourceTexts.NONE.with(NAME, text)));
  }

  /** The problem at its place in the argument instead of in the case made around it. */
  private static Problem moved(Problem problem, int lines, String lead, String text) {
    Optional<Span> where =
        problem
            .where()
            .map(
                at -> {
                  int column =
                      at.line() == lines + 1 ? Math.max(1, at.column() - lead.length()) : 1;
                  return new Span(NAME, 1, Math.min(column, text.length() + 1), at.length());
                });
    return new Problem(
        problem.id(), problem.severity(), where, problem.message(), problem.wayOut());
  }
}
