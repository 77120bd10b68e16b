package org.faultwright.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.JarURLConnection;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.faultwright.pack.PackId;
import org.faultwright.pack.yaml.YamlText;

/**
 * A pack with the cases that prove it.
 *
 * @param pack the text of the pack
 * @param cases the texts of its cases, by name
 */
record Bundle(YamlText pack, List<YamlText> cases) {

  private static final String PACK_FILE = "pack.yaml";
  private static final String CASES = "cases";
  private static final String RESOURCES = "org/faultwright/packs/";

  /** Copies the list. */
  Bundle {
    cases = List.copyOf(cases);
  }

  /** The packs below a folder, at any depth, with their cases. */
  static List<Bundle> in(Path folder) {
    return yamlFiles(folder).stream()
        .filter(f -> f.endsWith(PACK_FILE))
        .map(f -> new Bundle(YamlText.read(f), texts(f.resolveSibling(CASES))))
        .toList();
  }

  /** The pack in the first of the folders that has it, or else on the class path. */
  static Optional<Bundle> of(PackId id, List<Path> folders) {
    for (Path folder : folders) {
      Path file = folder.resolve(id.family()).resolve(id.subsystem()).resolve(PACK_FILE);
      if (Files.isRegularFile(file)) {
        return Optional.of(new Bundle(YamlText.read(file), texts(file.resolveSibling(CASES))));
      }
    }
    return onClassPath(id);
  }

  /** The pack on the class path. */
  private static Optional<Bundle> onClassPath(PackId id) {
    String folder = RESOURCES + id + "/";
    URL pack = Bundle.class.getClassLoader().getResource(folder + PACK_FILE);
    if (pack == null) {
      return Optional.empty();
    }
    try {
      if (pack.openConnection() instanceof JarURLConnection jar) {
        return Optional.of(inJar(jar, id, folder));
      }
      Path file = Path.of(pack.toURI());
      return Optional.of(new Bundle(YamlText.read(file), texts(file.resolveSibling(CASES))));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (URISyntaxException e) {
      throw new IllegalStateException("a resource must have an address", e);
    }
  }

  private static Bundle inJar(JarURLConnection connection, PackId id, String folder)
      throws IOException {
    try (JarFile jar = new JarFile(Path.of(jarFile(connection)).toFile())) {
      List<YamlText> cases = new ArrayList<>();
      List<String> names =
          jar.stream()
              .map(e -> e.getName())
              .filter(n -> n.startsWith(folder + CASES + "/") && n.endsWith(".yaml"))
              .sorted()
              .toList();
      for (String name : names) {
        cases.add(text(jar, name));
      }
      return new Bundle(text(jar, folder + PACK_FILE), cases);
    }
  }

  private static java.net.URI jarFile(JarURLConnection connection) {
    return java.net.URI.create(connection.getJarFileURL().toString());
  }

  private static YamlText text(JarFile jar, String name) throws IOException {
    try (InputStream in = jar.getInputStream(jar.getEntry(name))) {
      return YamlText.read("packs/" + name.substring(RESOURCES.length()), in);
    }
  }

  /**
   * The YAML files below a folder, in order of their names; not those in a folder that a Maven
   * build fills, a {@code target} beside a {@code pom.xml}: they are copies.
   */
  static List<Path> yamlFiles(Path folder) {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(Files::isRegularFile)
          .filter(f -> !isBuilt(folder, f))
          .filter(f -> f.toString().endsWith(".yaml") || f.toString().endsWith(".yml"))
          .sorted()
          .toList();
    } catch (IOException | UncheckedIOException e) {
      throw Stopped.byUsage("folder '" + folder + "' cannot be read: " + e.getMessage());
    }
  }

  private static boolean isBuilt(Path folder, Path file) {
    for (Path at = file.getParent(); at != null && !at.equals(folder); at = at.getParent()) {
      if (at.endsWith("target") && Files.isRegularFile(at.resolveSibling("pom.xml"))) {
        return true;
      }
    }
    return false;
  }

  private static List<YamlText> texts(Path folder) {
    return yamlFiles(folder).stream().map(YamlText::read).toList();
  }

  /**
   * The folder of packs that a case lies in, where it lies in {@code family/subsystem/cases} beside
   * a {@code pack.yaml}.
   */
  static Optional<Path> packsAround(Path caseFile) {
    Path cases = caseFile.toAbsolutePath().normalize().getParent();
    if (cases == null
        || !cases.endsWith(CASES)
        || !Files.isRegularFile(cases.resolveSibling(PACK_FILE))) {
      return Optional.empty();
    }
    return Optional.ofNullable(cases.getParent()).map(Path::getParent).map(Path::getParent);
  }
}
