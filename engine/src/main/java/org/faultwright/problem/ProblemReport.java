package org.faultwright.problem;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/**
 * How problems are shown to the person who wrote the file:
 *
 * <pre>
 * pack.yaml:42:18: error[unknown-cause]: step 'port-sweep' points at cause 'fuse-opne', which ...
 *    42 |         open: [fuse-opne]
 *       |                ^^^^^^^^^
 *    did you mean 'fuse-open'?
 * </pre>
 *
 * <p>All of them, sorted by place, each once, and a line that counts them. Characters that a
 * terminal would act upon are shown as {@code ?}.
 */
public final class ProblemReport {

  /** Longest part of a line that is shown; a longer one is cut around the culprit. */
  static final int WIDEST = 120;

  /** How much of a cut line is shown before the culprit. */
  private static final int BEFORE = 40;

  private ProblemReport() {}

  /** The report; empty when there are no problems. */
  public static String of(Collection<Problem> problems, SourceTexts texts) {
    StringBuilder out = new StringBuilder();
    for (Problem p : new TreeSet<>(problems)) {
      append(out, p, texts);
    }
    if (!problems.isEmpty()) {
      out.append(count(problems)).append('\n');
    }
    return out.toString();
  }

  /** How many problems of each kind there are, for example {@code 2 errors, 1 warning}. */
  public static String count(Collection<Problem> problems) {
    long errors = new TreeSet<>(problems).stream().filter(ProblemReport::isError).count();
    long warnings = new TreeSet<>(problems).size() - errors;
    if (errors == 0 && warnings == 0) {
      return "no problems";
    }
    String both = errors > 0 && warnings > 0 ? ", " : "";
    return counted(errors, "error") + both + counted(warnings, "warning");
  }

  private static boolean isError(Problem p) {
    return p.severity() == Severity.ERROR;
  }

  private static String counted(long n, String word) {
    return n == 0 ? "" : n + " " + word + (n == 1 ? "" : "s");
  }

  private static void append(StringBuilder out, Problem p, SourceTexts texts) {
    p.where().ifPresent(at -> out.append(at.file() + ":" + at.line() + ":" + at.column() + ": "));
    out.append(p.severity().word())
        .append('[')
        .append(p.id())
        .append("]: ")
        .append(harmless(p.message()))
        .append('\n');
    p.where().ifPresent(at -> texts.line(at.file(), at.line()).ifPresent(l -> quote(out, at, l)));
    p.wayOut().ifPresent(w -> harmless(w).lines().forEach(l -> out.append("   " + l + "\n")));
  }

  private static void quote(StringBuilder out, Span at, String whole) {
    int[] points = harmless(whole).codePoints().toArray();
    int start = Math.min(at.column() - 1, points.length);
    int from = points.length <= WIDEST ? 0 : Math.max(0, start - BEFORE);
    int to = Math.min(points.length, from + WIDEST);
    String before = from > 0 ? "..." : "";
    String after = to < points.length ? "..." : "";
    String line = before + new String(points, from, to - from) + after;
    int carets = Math.max(1, Math.min(at.length(), to - start));
    out.append(String.format("%5d | ", at.line())).append(line.stripTrailing()).append('\n');
    out.append("      | ")
        .append(" ".repeat(before.length() + start - from))
        .append("^".repeat(carets))
        .append('\n');
  }

  /** The same text with a space for each tab and a question mark for what is not to be printed. */
  private static String harmless(String text) {
    StringBuilder out = new StringBuilder();
    text.codePoints().forEach(c -> out.appendCodePoint(harmless(c)));
    return out.toString();
  }

  private static int harmless(int c) {
    if (c == '\n') {
      return c;
    } else if (c == '\t') {
      return ' ';
    }
    return switch (Character.getType(c)) {
      case Character.CONTROL,
          Character.FORMAT,
          Character.SURROGATE,
          Character.PRIVATE_USE,
          Character.UNASSIGNED,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR ->
          '?';
      default -> c;
    };
  }

  /** The problems as callers get them: sorted by place, each once. */
  public static List<Problem> sorted(Collection<Problem> problems) {
    return List.copyOf(new TreeSet<>(problems));
  }

  /** The first error, if there is one. */
  public static Optional<Problem> firstError(Collection<Problem> problems) {
    return new TreeSet<>(problems).stream().filter(ProblemReport::isError).findFirst();
  }
}
