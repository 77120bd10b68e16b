package org.faultwright.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.yaml.YamlText;

/**
 * A case file and the pack that it names, both read without errors.
 *
 * @param text the text of the case as it was read
 */
record OpenedCase(Pack pack, CaseFile caseFile, String text) {

  /**
   * Reads a case and its pack; warnings go to standard error.
   *
   * @throws Stopped when either cannot be used
   */
  static OpenedCase read(
      String file, PacksOption packs, PackOption named, Surroundings surroundings) {
    YamlText text = Sources.text(file, surroundings);
    FileKind kind = FileKind.of(text);
    if (kind != FileKind.CASE && kind != FileKind.UNKNOWN) {
      throw Stopped.byUsage("'" + file + "' is " + kind.words() + "; name a case file");
    }
    CaseReading reading =
        named
            .pack()
            .map(pack -> new CaseReader(pack).read(text))
            .orElseGet(() -> CaseReader.read(text, library(file, packs)));
    if (reading instanceof CaseReading.Readable readable) {
      surroundings.report(readable.report());
      return new OpenedCase(readable.pack(), readable.caseFile(), text.text());
    }
    throw Stopped.byProblems(reading.report());
  }

  /** A case in the folder of its pack is read with the pack as it stands there. */
  private static PackLibrary library(String file, PacksOption packs) {
    if (file.equals(Sources.STANDARD_INPUT)) {
      return packs.library(Optional.empty());
    }
    return packs.library(Bundle.packsAround(Path.of(file)));
  }

  /**
   * Opens the diagnosis.
   *
   * @throws Stopped when the pack cannot be diagnosed with
   */
  Diagnosis open(Engine engine) {
    Engines.checkUsable(engine, pack);
    return engine.resume(pack, caseFile);
  }
}
