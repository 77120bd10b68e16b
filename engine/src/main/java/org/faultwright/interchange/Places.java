package org.faultwright.interchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;

/** Where offsets of a text stand, and the problems found there. Not thread-safe. */
final class Places {

  /** Problems that are shown; what follows from a first slip is of no use to anyone. */
  static final int MOST_PROBLEMS = 100;

  private final String file;
  private final String text;
  private final int[] lineStarts;
  private final List<Problem> problems = new ArrayList<>();
  private boolean failed;

  Places(ExchangeText source) {
    file = source.file();
    text = source.text();
    int[] starts = new int[64];
    int lines = 1;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean ends =
          c == '\n' || c == '\r' && (i + 1 == text.length() || text.charAt(i + 1) != '\n');
      if (ends || c == '\u0085' || c == '\u2028' || c == '\u2029') {
        if (lines == starts.length) {
          starts = Arrays.copyOf(starts, lines * 2);
        }
        starts[lines++] = i + 1;
      }
    }
    lineStarts = Arrays.copyOf(starts, lines);
  }

  /** A stretch of the text, within one line. */
  Span span(int offset, int length) {
    int at = Math.max(0, Math.min(offset, text.length()));
    int line = Arrays.binarySearch(lineStarts, at);
    if (line < 0) {
      line = -line - 2;
    }
    int end = line + 1 < lineStarts.length ? lineStarts[line + 1] - 1 : text.length();
    int until = Math.max(at, Math.min(at + length, end));
    return new Span(
        file,
        line + 1,
        text.codePointCount(lineStarts[line], at) + 1,
        Math.max(1, text.codePointCount(at, until)));
  }

  /** A sign by line and column, both from 1; what lies outside the text is moved to its edge. */
  Span at(int line, int column) {
    int start = lineStarts[Math.max(0, Math.min(line - 1, lineStarts.length - 1))];
    return span(start + Math.max(0, column - 1), 1);
  }

  void error(ExchangeRule rule, Span at, String message, String wayOut) {
    failed = true;
    if (problems.size() < MOST_PROBLEMS) {
      problems.add(Problem.error(rule.id(), at, message, wayOut));
    }
  }

  void warning(ExchangeRule rule, Span at, String message, String wayOut) {
    if (problems.size() < MOST_PROBLEMS) {
      problems.add(Problem.warning(rule.id(), at, message, wayOut));
    }
  }

  boolean failed() {
    return failed;
  }

  List<Problem> problems() {
    return problems;
  }
}
