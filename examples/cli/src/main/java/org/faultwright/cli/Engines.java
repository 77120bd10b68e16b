package org.faultwright.cli;

import java.util.List;
import java.util.Optional;
import org.faultwright.compile.CompilationProblems;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.pack.check.Positions;
import org.faultwright.problem.Problem;
import org.faultwright.problem.ProblemReport;
import org.faultwright.problem.SourceTexts;

/** Sees to it that a pack can be diagnosed with. */
final class Engines {

  private Engines() {}

  /**
   * Compiles the pack; the engine keeps the result.
   *
   * @throws Stopped when it cannot be diagnosed with
   */
  static void checkUsable(Engine engine, Pack pack) {
    String name = "pack " + pack.id();
    Optional<Problem> problem =
        CompilationProblems.of(engine.compile(pack), pack, Positions.none(name));
    problem.ifPresent(
        p -> {
          throw Stopped.byProblems(ProblemReport.of(List.of(p), SourceTexts.NONE));
        });
  }
}
