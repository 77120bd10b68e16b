package org.faultwright.cli.converse;

import java.util.List;
import org.faultwright.problem.Problem;

/** A request that cannot be met; whoever sent it is told why, and the conversation goes on. */
final class Refused extends Exception {
  private static final long serialVersionUID = 1L;

  /** What stands in the way; a host may act on it, so that the words never change. */
  enum Kind {
    NOT_TEXT,
    NOT_JSON,
    TOO_LONG,
    UNKNOWN_REQUEST,
    MISSING_KEY,
    UNKNOWN_KEY,
    BAD_VALUE,
    BAD_CASE,
    BAD_FACT,
    NO_CASE,
    NO_RANKING,
    OWN_FAULT;

    /** As it stands in a reply. */
    String word() {
      return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }
  }

  private final Kind kind;
  private final transient List<Problem> problems;

  Refused(Kind kind, String message) {
    this(kind, message, List.of());
  }

  Refused(Kind kind, String message, List<Problem> problems) {
    super(message);
    this.kind = kind;
    this.problems = List.copyOf(problems);
  }

  Kind kind() {
    return kind;
  }

  List<Problem> problems() {
    return problems;
  }
}
