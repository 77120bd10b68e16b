package org.faultwright.interchange;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Severity;
import org.faultwright.problem.SourceTexts;
import org.faultwright.problem.Span;

/**
 * A file in an open format, as text. Immutable.
 *
 * @param file the file as the caller named it
 * @param text its text; empty where it is none
 * @param problem why it is no text that can be read
 */
public record ExchangeText(String file, String text, Optional<Problem> problem) {

  /** The largest file that is read. */
  public static final int FILE_BYTES = 16 << 20;

  private static final char BYTE_ORDER_MARK = '\uFEFF';

  /** Reads a file; whatever goes wrong is a problem. */
  public static ExchangeText read(Path path) {
    try (InputStream in = Files.newInputStream(path)) {
      return read(path.toString(), in);
    } catch (IOException e) {
      return new ExchangeText(
          path.toString(),
          "",
          Optional.of(
              new Problem(
                  ExchangeRule.UNREADABLE_FILE.id(),
                  Severity.ERROR,
                  Optional.empty(),
                  "cannot read " + path,
                  Optional.of("check the path, and that the file may be read"))));
    }
  }

  /**
   * Reads a stream, up to the limit of a file; the caller closes it.
   *
   * @throws IOException when the stream fails
   */
  public static ExchangeText read(String file, InputStream in) throws IOException {
    byte[] bytes = in.readNBytes(FILE_BYTES + 1);
    if (bytes.length > FILE_BYTES) {
      return refused(
          file,
          "",
          ExchangeRule.FILE_TOO_LARGE,
          new Span(file, 1, 1, 1),
          "the file must not be larger than " + (FILE_BYTES >> 20) + " MiB",
          "split the model");
    }
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT)
            .decode(ByteBuffer.wrap(bytes), out, true);
    String text = out.flip().toString();
    if (result.isError() || text.indexOf('\0') >= 0) {
      int end = text.indexOf('\0') >= 0 ? text.indexOf('\0') : text.length();
      List<String> lines = SourceTexts.lines(text.substring(0, end));
      String last = lines.get(lines.size() - 1);
      return refused(
          file,
          text.substring(0, end),
          ExchangeRule.NOT_TEXT,
          new Span(file, lines.size(), last.codePointCount(0, last.length()) + 1, 1),
          "here the file is not text in UTF-8",
          "save it as plain text in UTF-8");
    }
    return of(file, text);
  }

  /** A text. */
  public static ExchangeText of(String file, String text) {
    String content =
        !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
    if (content.isBlank()) {
      return refused(
          file,
          content,
          ExchangeRule.EMPTY_FILE,
          new Span(file, 1, 1, 1),
          "the file is empty",
          "check that it is the one you mean");
    }
    return new ExchangeText(file, content, Optional.empty());
  }

  private static ExchangeText refused(
      String file, String text, ExchangeRule rule, Span at, String message, String wayOut) {
    return new ExchangeText(file, text, Optional.of(Problem.error(rule.id(), at, message, wayOut)));
  }

  /** The text, for showing problems. */
  public SourceTexts source() {
    return SourceTexts.NONE.with(file, text);
  }
}
