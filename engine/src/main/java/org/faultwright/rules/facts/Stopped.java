package org.faultwright.rules.facts;

import java.util.Optional;
import org.faultwright.rules.Blocked;

/** Concluded: a reason why something is not allowed now. */
public record Stopped(Subject subject, Blocked blocked) {

  /** The requirement is not met. */
  public static Stopped by(Requirement unmet, Blocked.Kind kind, String words) {
    return new Stopped(
        unmet.subject(),
        new Blocked(kind, words, unmet.wayOut(), Optional.of(unmet.condition()), unmet.consent()));
  }

  /** A reason outside the guard. */
  public static Stopped outside(Subject subject, Blocked.Kind kind, String words, String wayOut) {
    return new Stopped(
        subject, new Blocked(kind, words, wayOut, Optional.empty(), Optional.empty()));
  }

  /** The kind of the reason. */
  public Blocked.Kind kind() {
    return blocked.kind();
  }

  /** Whether neither the customer's word nor a further finding can change it in this job. */
  public boolean beyondThisJob() {
    return switch (kind()) {
      case REFUSED_CONSENT,
          GOAL,
          WRONG_BOARD,
          LACKS_TOOL,
          LACKS_SKILL,
          SWITCH_UNREACHABLE,
          COULD_NOT_DO,
          TRIED_ALREADY ->
          true;
      default -> false;
    };
  }

  /** Whether it is about closing the device. */
  public boolean closing() {
    return subject instanceof Subject.OfClosing;
  }
}
