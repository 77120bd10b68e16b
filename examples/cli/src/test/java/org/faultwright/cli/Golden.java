package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Texts that people read, kept in files. After a change that is meant, {@code
 * -Dfaultwright.golden=write} writes them anew; the difference is then read before it is kept.
 */
public final class Golden {

  private static final Path FOLDER = Path.of("src/test/resources/golden");

  private Golden() {}

  /** Holds a text to the file of this name. */
  public static void assertSame(String name, String text) {
    assertSameFile(name + ".txt", text);
  }

  /** As {@link #assertSame}, with the ending of the file. */
  public static void assertSameFile(String name, String text) {
    Path file = FOLDER.resolve(name);
    try {
      if (System.getProperty("faultwright.golden", "").equals("write")) {
        Files.createDirectories(FOLDER);
        Files.writeString(file, text);
      }
      assertThat(text).isEqualTo(Files.readString(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
