package org.faultwright.cli.converse;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** Lines of UTF-8, none of them longer than is allowed. Confined to one thread. */
final class RequestLines {

  /** Longest line in bytes, its end not counted: as much as the largest case file, 1 MiB. */
  static final int MOST_BYTES = 1 << 20;

  /** One line. */
  sealed interface Line {

    /** A line of text. */
    record Text(String text) implements Line {}

    /** It was longer than is allowed; the rest of it has been passed over. */
    record TooLong() implements Line {}

    /** It is no UTF-8. */
    record NotText() implements Line {}
  }

  private final InputStream in;

  RequestLines(InputStream in) {
    this.in = new BufferedInputStream(in);
  }

  /**
   * The next line; empty: there is none.
   *
   * @throws IOException when the stream fails
   */
  Optional<Line> next() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    long length = 0;
    int b = in.read();
    if (b < 0) {
      return Optional.empty();
    }
    for (; b >= 0 && b != '\n'; b = in.read()) {
      length++;
      if (length <= MOST_BYTES) {
        bytes.write(b);
      }
    }
    return Optional.of(length > MOST_BYTES ? new Line.TooLong() : text(bytes));
  }

  private static Line text(ByteArrayOutputStream bytes) {
    try {
      return new Line.Text(
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(ByteBuffer.wrap(bytes.toByteArray()))
              .toString());
    } catch (CharacterCodingException e) {
      return new Line.NotText();
    }
  }
}
