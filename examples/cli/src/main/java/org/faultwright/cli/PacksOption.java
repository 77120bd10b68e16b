package org.faultwright.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.reader.PackLibrary;
import picocli.CommandLine.Option;

/** The option that names folders with packs. */
final class PacksOption {

  @Option(
      names = "--packs",
      paramLabel = "DIR",
      description =
          "A folder with packs of your own (DIR/family/subsystem/pack.yaml), beside those that come"
              + " along. May be repeated.")
  private List<String> named = new ArrayList<>();

  /** The folders, in the order of naming. */
  List<Path> folders() {
    return named.stream().map(PacksOption::folder).toList();
  }

  /**
   * The packs that a command can use: those in named folders, then those around a case, then those
   * that come along.
   */
  PackLibrary library(Optional<Path> around) {
    PackLibrary library = PackLibrary.onClassPath();
    if (around.isPresent()) {
      library = library.after(around.get());
    }
    List<Path> folders = folders();
    for (int i = folders.size() - 1; i >= 0; i--) {
      library = library.after(folders.get(i));
    }
    return library;
  }

  private static Path folder(String name) {
    Path path = Sources.existing(name);
    if (!Files.isDirectory(path)) {
      throw Stopped.byUsage("'" + name + "' is a file; --packs takes a folder");
    }
    return path;
  }
}
