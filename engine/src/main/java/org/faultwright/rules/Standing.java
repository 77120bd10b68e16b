package org.faultwright.rules;

import java.util.List;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.pack.Ordered;

/**
 * Whether a fact counts, and what else there is to say of it. A fact that was withdrawn has no
 * standing at all: it is not there.
 *
 * @param words why it does not count, or what its marks mean; empty where it plainly stands
 */
public record Standing(Told told, Verdict verdict, Set<Mark> marks, List<String> words) {

  /** Copies the collections. */
  public Standing {
    marks = Ordered.copy(marks);
    words = List.copyOf(words);
  }

  /** Whether a fact counts. */
  public enum Verdict {
    /** It counts. */
    STANDS,
    /** A later fact about the same thing replaces it. */
    CORRECTED,
    /** It was taken in a way that the step rules out. */
    WRONG_SETUP
  }

  /** What else there is to say of a fact that stands. No mark takes away its evidence. */
  public enum Mark {
    /** A later attempt can have changed what it tells of: it speaks of the device as it was. */
    BEFORE_CHANGE,
    /** The reading lies so close to a limit that it counts for little. */
    ON_LIMIT
  }

  /** The fact. */
  public FactId id() {
    return told.id();
  }

  /** Whether the fact is evidence. */
  public boolean counts() {
    return verdict == Verdict.STANDS;
  }

  /** Whether the fact is evidence about the device as it is now. */
  public boolean countsNow() {
    return counts() && !marks.contains(Mark.BEFORE_CHANGE);
  }
}
