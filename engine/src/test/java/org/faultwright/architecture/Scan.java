package org.faultwright.architecture;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The classes under test, read from where the build put them, and the sources they came from. */
final class Scan {
  static final Path MAIN_SOURCES = Path.of("src/main/java");
  static final Path TEST_SOURCES = Path.of("src/test/java");

  static final JavaClasses MAIN = new ClassFileImporter().importPath(Path.of("target/classes"));
  static final JavaClasses TESTS =
      new ClassFileImporter().importPath(Path.of("target/test-classes"));

  private Scan() {}

  /** Packages in which some class is declared; one that holds a package-info alone is not named. */
  static List<String> packagesWithSources(Path root) {
    try (Stream<Path> files = Files.walk(root)) {
      return files
          .filter(f -> f.toString().endsWith(".java"))
          .filter(f -> !f.endsWith("package-info.java"))
          .map(f -> root.relativize(f.getParent()).toString().replace('/', '.').replace('\\', '.'))
          .distinct()
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
