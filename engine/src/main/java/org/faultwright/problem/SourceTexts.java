package org.faultwright.problem;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The texts that problems were found in, so that the lines can be shown. Immutable. */
public final class SourceTexts {

  /** No texts: problems are shown without their lines. */
  public static final SourceTexts NONE = new SourceTexts(Map.of());

  private static final String BREAKS = "\r\n\u0085\u2028\u2029";

  private final Map<String, List<String>> linesByFile;

  private SourceTexts(Map<String, List<String>> linesByFile) {
    this.linesByFile = linesByFile;
  }

  /** These texts and one more. */
  public SourceTexts with(String file, String text) {
    Map<String, List<String>> more = new LinkedHashMap<>(linesByFile);
    more.put(file, lines(text));
    return new SourceTexts(more);
  }

  /** All texts of both. */
  public SourceTexts with(SourceTexts others) {
    Map<String, List<String>> more = new LinkedHashMap<>(linesByFile);
    more.putAll(others.linesByFile);
    return new SourceTexts(more);
  }

  /** The line, where the text is known and has it. */
  public Optional<String> line(String file, int number) {
    List<String> lines = linesByFile.getOrDefault(file, List.of());
    return number <= lines.size() ? Optional.of(lines.get(number - 1)) : Optional.empty();
  }

  /** The lines of a text, without their ends: the line breaks of YAML 1.1. */
  public static List<String> lines(String text) {
    // a regular expression would take longer here than the reader takes for a small file
    List<String> lines = new ArrayList<>();
    int begin = 0;
    for (int i = 0; i < text.length(); i++) {
      if (BREAKS.indexOf(text.charAt(i)) >= 0) {
        lines.add(text.substring(begin, i));
        boolean two = text.startsWith("\r\n", i);
        i += two ? 1 : 0;
        begin = i + 1;
      }
    }
    lines.add(text.substring(begin));
    return Collections.unmodifiableList(lines);
  }
}
