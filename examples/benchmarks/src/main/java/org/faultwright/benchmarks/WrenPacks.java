package org.faultwright.benchmarks;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;

/** The packs of the Wren handset as they come on the class path, and a case for each. */
final class WrenPacks {

  private WrenPacks() {}

  static Pack pack() {
    return pack("charging");
  }

  static Pack pack(String subsystem) {
    PackReading reading =
        PackLibrary.onClassPath().read(new PackId("wren-handset", subsystem)).orElseThrow();
    if (reading instanceof PackReading.Readable readable) {
      return readable.pack();
    }
    throw new IllegalStateException(reading.report());
  }

  static CompiledPack compiled(Pack pack) {
    if (CompiledPack.compile(pack) instanceof CompiledPack compiled) {
      return compiled;
    }
    throw new IllegalStateException("pack must compile: " + pack.id());
  }

  /** Four or five facts about a device as taken in; the last one is an outcome. */
  static CaseFile caseFile(Pack pack) {
    String file = "/case-" + pack.id().subsystem() + ".yaml";
    try (InputStream in = WrenPacks.class.getResourceAsStream(file)) {
      CaseReading reading = new CaseReader(pack).read(YamlText.read(file, in));
      if (reading instanceof CaseReading.Readable readable) {
        return readable.caseFile();
      }
      throw new IllegalStateException(reading.report());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Told last(CaseFile caseFile) {
    return caseFile.facts().get(caseFile.facts().size() - 1);
  }
}
