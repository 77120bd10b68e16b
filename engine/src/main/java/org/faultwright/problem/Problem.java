package org.faultwright.problem;

import java.util.Comparator;
import java.util.Optional;

/**
 * Something wrong with a file that a person wrote, and the way out.
 *
 * @param id stable id of the check that found it; also the name of its page in {@code
 *     engine/docs/checks/}
 * @param severity how grave it is
 * @param where the offending value; empty only when the file as a whole is meant and has no line
 *     (say, it is missing)
 * @param message one sentence without a full stop, in the words of the trade
 * @param wayOut what to do about it, for example {@code did you mean 'fuse-open'?}
 */
public record Problem(
    String id, Severity severity, Optional<Span> where, String message, Optional<String> wayOut)
    implements Comparable<Problem> {

  private static final Comparator<Problem> ORDER =
      Comparator.comparing((Problem p) -> p.where.orElse(new Span("", 1, 1, 1)))
          .thenComparing(Problem::id)
          .thenComparing(Problem::message);

  /** An error at a place. */
  public static Problem error(String id, Span where, String message, String wayOut) {
    return new Problem(
        id,
        Severity.ERROR,
        Optional.of(where),
        message,
        Optional.of(wayOut).filter(s -> !s.isEmpty()));
  }

  /** A warning at a place. */
  public static Problem warning(String id, Span where, String message, String wayOut) {
    return new Problem(
        id,
        Severity.WARNING,
        Optional.of(where),
        message,
        Optional.of(wayOut).filter(s -> !s.isEmpty()));
  }

  @Override
  public int compareTo(Problem other) {
    return ORDER.compare(this, other);
  }
}
