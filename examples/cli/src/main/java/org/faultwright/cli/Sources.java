package org.faultwright.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import org.faultwright.pack.yaml.YamlText;

/** Files that the command line names. */
final class Sources {

  /** Standard input, on the command line and in messages. */
  static final String STANDARD_INPUT = "-";

  private Sources() {}

  /**
   * The path that was named.
   *
   * @throws Stopped when nothing is there
   */
  static Path existing(String name) {
    Path path;
    try {
      path = Path.of(name);
    } catch (InvalidPathException e) {
      throw Stopped.byUsage("this cannot be the name of a file: '" + name + "'");
    }
    if (!Files.exists(path)) {
      throw Stopped.byUsage(
          "there is no file '" + name + "'; check its name and the folder you are in");
    }
    return path;
  }

  /**
   * The text of a file, or of standard input.
   *
   * @throws Stopped when there is no such file, or it is a folder
   */
  static YamlText text(String name, Surroundings surroundings) {
    if (name.equals(STANDARD_INPUT)) {
      try {
        return YamlText.read(STANDARD_INPUT, surroundings.in());
      } catch (IOException e) {
        throw Stopped.byUsage("standard input cannot be read: " + e.getMessage());
      }
    }
    Path path = existing(name);
    if (Files.isDirectory(path)) {
      throw Stopped.byUsage("'" + name + "' is a folder; name a case file in it");
    }
    return YamlText.read(path);
  }

  /**
   * The bytes of a file, or of standard input.
   *
   * @param most no more than so many are read
   * @throws Stopped when there is no such file, or it cannot be read
   */
  static byte[] bytes(String name, int most, Surroundings surroundings) {
    try {
      if (name.equals(STANDARD_INPUT)) {
        return surroundings.in().readNBytes(most);
      }
      Path path = existing(name);
      if (Files.isDirectory(path)) {
        throw Stopped.byUsage("'" + name + "' is a folder; name a file in it");
      }
      try (InputStream in = Files.newInputStream(path)) {
        return in.readNBytes(most);
      }
    } catch (IOException e) {
      throw Stopped.byUsage("'" + name + "' cannot be read: " + e.getMessage());
    }
  }
}
