package org.faultwright.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.planning.ShopReader;
import org.faultwright.planning.ShopReading;
import picocli.CommandLine.Option;

/** The option that says what time and trouble cost. */
final class ShopOption {

  @Option(
      names = "--shop",
      paramLabel = "FILE",
      description =
          "Your shop's rates, fees and prices of parts, which steps are weighed by. Without it: a"
              + " shop of which nothing is known.")
  private String named = "";

  /** The file, where one is named. */
  Optional<String> file() {
    return named.isEmpty() ? Optional.empty() : Optional.of(named);
  }

  /** The option as it was given, to be given again; empty: it was not. */
  String again() {
    return named.isEmpty() ? "" : " --shop " + named;
  }

  /**
   * An engine for the shop; warnings about its file go to standard error.
   *
   * @throws Stopped when the file cannot be used
   */
  Engine engine(Surroundings surroundings) {
    if (named.isEmpty()) {
      return Engine.create();
    }
    Path path = Sources.existing(named);
    if (Files.isDirectory(path)) {
      throw Stopped.byUsage("'" + named + "' is a folder; --shop takes a file");
    }
    YamlText text = YamlText.read(path);
    FileKind kind = FileKind.of(text);
    if (kind != FileKind.SHOP && kind != FileKind.UNKNOWN) {
      throw Stopped.byUsage(
          "'" + named + "' is " + kind.words() + "; --shop takes a file that begins with 'shop:'");
    }
    ShopReading reading = ShopReader.read(text);
    if (reading instanceof ShopReading.Readable readable) {
      surroundings.report(readable.report());
      return Engine.forShop(readable.shop());
    }
    throw Stopped.byProblems(reading.report());
  }
}
