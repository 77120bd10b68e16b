package org.faultwright.cli;

import org.faultwright.casefile.CaseFile;
import org.faultwright.cli.text.Figures;
import org.faultwright.compile.PackCompilation;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;

/** Opens diagnoses, with the reasons why one cannot be opened in words for a pack's author. */
final class Engines {

  private Engines() {}

  /**
   * Opens a diagnosis of a case.
   *
   * @throws Stopped when the pack cannot be diagnosed with
   */
  static Diagnosis resume(Engine engine, Pack pack, CaseFile caseFile) {
    checkUsable(engine, pack);
    return engine.resume(pack, caseFile);
  }

  /**
   * Compiles the pack.
   *
   * @throws Stopped when it cannot be diagnosed with
   */
  static void checkUsable(Engine engine, Pack pack) {
    PackCompilation compiled = engine.compile(pack);
    if (compiled instanceof PackCompilation.SharesUnattainable shares) {
      throw Stopped.byFinding(
          "pack '"
              + pack.id()
              + "' cannot be used: no probabilities give the shares of complaint '"
              + shares.complaint()
              + "' at its rate; look at its shares, at its rate and at the strengths of its events");
    } else if (compiled instanceof PackCompilation.TooWide wide) {
      throw Stopped.byFinding(
          "pack '"
              + pack.id()
              + "' cannot be used: an exact answer would take about "
              + Figures.times(wide.predicted() / wide.budget())
              + " as much work as is allowed; make its steps look at fewer causes at once, or split"
              + " the pack");
    }
  }
}
