package org.faultwright.pack.yaml;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Severity;
import org.faultwright.problem.SourceTexts;
import org.faultwright.problem.Span;

/**
 * A file as text and as a tree. Immutable.
 *
 * @param file the file as the caller named it
 * @param text its text; empty where it is none
 * @param root its tree, always a block of keys; empty where it cannot be trusted or there is none
 * @param problems what is wrong with it as a text
 */
public record YamlText(String file, String text, Optional<YamlMap> root, List<Problem> problems) {

  private static final char BYTE_ORDER_MARK = '\uFEFF';

  /** Copies the list. */
  public YamlText {
    problems = List.copyOf(problems);
  }

  /** The text, for showing problems. */
  public SourceTexts source() {
    return SourceTexts.NONE.with(file, text);
  }

  /** Reads a file; whatever goes wrong is a problem. */
  public static YamlText read(Path path) {
    String file = path.toString();
    try (InputStream in = Files.newInputStream(path)) {
      return read(file, in);
    } catch (NoSuchFileException e) {
      return unreadable(file, "there is no such file: " + file);
    } catch (IOException e) {
      return unreadable(file, "cannot read " + file);
    }
  }

  /**
   * Reads a stream, up to the limit of a file; the caller closes it.
   *
   * @throws IOException when the stream fails
   */
  public static YamlText read(String file, InputStream in) throws IOException {
    return of(file, in.readNBytes(YamlLimits.FILE_BYTES + 1));
  }

  /** Reads the bytes of a file. */
  public static YamlText of(String file, byte[] bytes) {
    if (bytes.length > YamlLimits.FILE_BYTES) {
      return refused(file, "", tooLarge(file));
    }
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT)
            .decode(ByteBuffer.wrap(bytes), out, true);
    String text = out.flip().toString();
    return result.isError() ? notText(file, text) : of(file, text);
  }

  /** Reads a text. */
  public static YamlText of(String file, String text) {
    if (text.length() > YamlLimits.FILE_BYTES) {
      return refused(file, "", tooLarge(file));
    }
    String content =
        !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
    int bad = firstUnprintable(content);
    if (bad >= 0) {
      return notText(file, content.substring(0, bad));
    }
    List<Problem> problems = new ArrayList<>();
    Optional<YamlMap> root = new YamlGuard(file, content, problems).read();
    return new YamlText(file, content, root, problems);
  }

  private static YamlText unreadable(String file, String message) {
    return new YamlText(
        file,
        "",
        Optional.empty(),
        List.of(
            new Problem(
                YamlRule.UNREADABLE_FILE.id(),
                Severity.ERROR,
                Optional.empty(),
                message,
                Optional.of("check the path, and that the file may be read"))));
  }

  private static YamlText refused(String file, String text, Problem problem) {
    return new YamlText(file, text, Optional.empty(), List.of(problem));
  }

  private static Problem tooLarge(String file) {
    return Problem.error(
        YamlRule.FILE_TOO_LARGE.id(),
        new Span(file, 1, 1, 1),
        "the file must not be larger than " + YamlLimits.FILE_BYTES / 1024 + " KiB",
        "a pack is for one subsystem: split it into one pack for each");
  }

  /** A file that stops being text after the given beginning. */
  private static YamlText notText(String file, String beginning) {
    List<String> lines = SourceTexts.lines(beginning);
    String last = lines.get(lines.size() - 1);
    Span at = new Span(file, lines.size(), last.codePointCount(0, last.length()) + 1, 1);
    return refused(
        file,
        beginning,
        Problem.error(
            YamlRule.NOT_TEXT.id(),
            at,
            "here the file is not text in UTF-8",
            "save it as plain text in UTF-8"));
  }

  /** Where the first character is that YAML does not allow; -1 when there is none. */
  private static int firstUnprintable(String text) {
    for (int i = 0; i < text.length(); ) {
      int c = text.codePointAt(i);
      boolean allowed =
          c == '\t'
              || c == '\n'
              || c == '\r'
              || c == 0x85
              || (c >= 0x20 && c <= 0x7E)
              || (c >= 0xA0 && c <= 0xD7FF)
              || (c >= 0xE000 && c <= 0xFFFD && c != BYTE_ORDER_MARK)
              || c >= 0x10000;
      if (!allowed) {
        return i;
      }
      i += Character.charCount(c);
    }
    return -1;
  }
}
