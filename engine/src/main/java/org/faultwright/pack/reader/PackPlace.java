package org.faultwright.pack.reader;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.faultwright.pack.PackId;
import org.faultwright.pack.yaml.YamlText;

/** Where a pack is kept. */
sealed interface PackPlace {

  /** What to call it in messages. */
  String name();

  /** Its text as it is now. */
  YamlText text();

  /** A file. */
  record InFile(Path file) implements PackPlace {
    @Override
    public String name() {
      return file.toString();
    }

    @Override
    public YamlText text() {
      return YamlText.read(file);
    }
  }

  /** A resource on the class path. */
  record OnClassPath(String name, URL url) implements PackPlace {
    @Override
    public YamlText text() {
      try (InputStream in = url.openStream()) {
        return YamlText.read(name, in);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  /** The file of a pack in its folder. */
  String FILE = "pack.yaml";

  /** The folder of packs on the class path; each jar lists its packs in an index there. */
  String RESOURCES = "org/faultwright/packs/";

  /** Name of the index: one pack in each line; what follows a # is a remark. */
  String INDEX = "index.txt";

  /** The packs in a folder, by id. */
  static Map<PackId, PackPlace> in(Path folder) {
    Map<PackId, PackPlace> found = new LinkedHashMap<>();
    for (Path family : foldersIn(folder)) {
      for (Path subsystem : foldersIn(family)) {
        Path file = subsystem.resolve(FILE);
        Optional<PackId> id = parse(family.getFileName() + "/" + subsystem.getFileName());
        if (id.isPresent() && Files.isRegularFile(file)) {
          found.put(id.get(), new InFile(file));
        }
      }
    }
    return found;
  }

  private static List<Path> foldersIn(Path folder) {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> inside = Files.list(folder)) {
      return inside.filter(Files::isDirectory).sorted().toList();
    } catch (IOException e) {
      return List.of(); // A folder that may not be read adds nothing.
    }
  }

  private static Optional<PackId> parse(String text) {
    try {
      return Optional.of(PackId.parse(text));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /** The packs that the jars on the class path list, by id. */
  static Map<PackId, PackPlace> onClassPath() {
    Map<PackId, PackPlace> found = new LinkedHashMap<>();
    ClassLoader loader = PackPlace.class.getClassLoader();
    try {
      for (URL index : Collections.list(loader.getResources(RESOURCES + INDEX))) {
        for (String line : lines(index)) {
          String name = line.replaceAll("#.*", "").strip();
          Optional<PackId> id = parse(name);
          Optional<URL> url =
              Optional.ofNullable(loader.getResource(RESOURCES + name + "/" + FILE));
          if (id.isPresent() && url.isPresent()) {
            found.putIfAbsent(id.get(), new OnClassPath("packs/" + name + "/" + FILE, url.get()));
          }
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return found;
  }

  private static List<String> lines(URL url) throws IOException {
    try (InputStream in = url.openStream()) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    }
  }
}
