package org.faultwright.cli.text;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Text brought onto the disk as a whole or not at all. */
public final class WholeFile {

  private WholeFile() {}

  /**
   * Writes the text beside the file, onto the disk, and moves it into its place in one go, so that
   * a reader, or a machine that loses power, finds what was there before or all of the new text.
   *
   * @throws IOException when that cannot be done; the message is for a person
   */
  public static void write(Path file, String text) throws IOException {
    Path absolute = file.toAbsolutePath();
    if (!Files.isDirectory(absolute.getParent())) {
      throw new IOException("there is no folder " + file.getParent());
    }
    Path beside = absolute.resolveSibling("." + absolute.getFileName() + ".new");
    try (FileChannel channel =
        FileChannel.open(
            beside,
            StandardOpenOption.CREATE,
            StandardOpenOption.WRITE,
            StandardOpenOption.TRUNCATE_EXISTING)) {
      ByteBuffer bytes = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
      channel.force(true);
    }
    Files.move(
        beside, absolute, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }
}
