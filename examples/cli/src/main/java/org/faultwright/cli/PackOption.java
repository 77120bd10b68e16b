package org.faultwright.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import picocli.CommandLine.Option;

/** The option that names one pack, wherever it is. */
final class PackOption {

  @Option(
      names = "--pack",
      paramLabel = "PACK",
      description =
          "The pack to use: a pack file of your own, or the name of one that can be found"
              + " (family/subsystem).")
  private String named = "";

  /**
   * The pack in the file that was named; empty: no file was named.
   *
   * @throws Stopped when it cannot be used
   */
  Optional<Pack> pack() {
    if (named.isEmpty() || id().isPresent()) {
      return Optional.empty();
    }
    Path path = Sources.existing(named);
    Path file = Files.isDirectory(path) ? path.resolve("pack.yaml") : path;
    PackReading reading = new PackReader().read(YamlText.read(file));
    if (reading instanceof PackReading.Readable readable) {
      return Optional.of(readable.pack());
    }
    throw Stopped.byProblems(reading.report());
  }

  /** The name of a pack that is to be found; empty: none, or a file was named. */
  Optional<PackId> id() {
    if (named.isEmpty() || named.endsWith(".yaml") || Files.exists(Path.of(named))) {
      return Optional.empty();
    }
    try {
      return Optional.of(PackId.parse(named));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }
}
