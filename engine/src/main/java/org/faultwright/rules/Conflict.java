package org.faultwright.rules;

import java.util.Set;
import java.util.TreeSet;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.Ordered;

/**
 * Facts that do not go together. They keep their evidence; one of them should be looked at again.
 *
 * @param facts the facts, in order of telling
 * @param words what is wrong with them together
 */
public record Conflict(Kind kind, Set<FactId> facts, String words) {

  /** Copies the facts, keeping their order. */
  public Conflict {
    facts = Ordered.copy(facts);
  }

  /** Two facts that do not go together, the earlier first. */
  public static Conflict between(Kind kind, FactId one, FactId other, String words) {
    return new Conflict(kind, new TreeSet<>(Set.of(one, other)), words);
  }

  /** How facts can clash. */
  public enum Kind {
    /** The pack says that they exclude each other. */
    CLASH,
    /** A step that always answers the same way came out differently, nothing changed since. */
    REPEAT_DIFFERS,
    /** Two readings of one point differ by more than their uncertainty, nothing changed since. */
    READINGS_APART,
    /** The customer says that the function is there, and the function test failed. */
    DENIED_YET_LOST,
    /** Under the pack's numbers no device can show them all. */
    IMPOSSIBLE
  }
}
