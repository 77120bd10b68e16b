package org.faultwright.rules;

import java.util.Optional;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;

/**
 * One reason why a step, or a turn of a switch, is not open.
 *
 * @param words the reason, for the technician
 * @param wayOut what would open it
 * @param unmet the part of the guard that is not met; empty: the reason lies outside the guard
 * @param consent the consent that is lacking or refused, where that is the reason
 */
public record Blocked(
    Kind kind, String words, String wayOut, Optional<Condition> unmet, Optional<ConsentId> consent)
    implements Comparable<Blocked> {

  /** Kinds of reasons, in the order in which they are shown. */
  public enum Kind {
    /** A hold forbids it. */
    HELD,
    /** The way to a bench position that it needs leads through something that a hold forbids. */
    SWITCH_HELD,
    /** It can lose the customer's data, which cannot be replaced and are not safe yet. */
    DATA_AT_RISK,
    /** The customer has refused. */
    REFUSED_CONSENT,
    /** The customer has not been asked. */
    LACKS_CONSENT,
    /** The customer wants something else. */
    GOAL,
    /** It is for another board. */
    WRONG_BOARD,
    /** The shop lacks a tool. */
    LACKS_TOOL,
    /** It is for other hands. */
    LACKS_SKILL,
    /** A bench position that it needs cannot be reached. */
    SWITCH_UNREACHABLE,
    /** A function that it needs is lost. */
    NEEDS_WORKING,
    /** A reading, outcome or other condition comes first. */
    CONDITION_NOT_MET,
    /** Another step comes first. */
    WAITS_FOR,
    /** It could not be done. */
    COULD_NOT_DO,
    /** It has been done, and a further attempt has no fresh chance. */
    TRIED_ALREADY,
    /** It has been answered since the device was last changed. */
    ANSWERED_ALREADY
  }

  /** The reason alone: two steps may be blocked by one thing through parts of their own guards. */
  public Blocked withoutCondition() {
    return new Blocked(kind, words, wayOut, Optional.empty(), consent);
  }

  @Override
  public int compareTo(Blocked other) {
    int byKind = kind.compareTo(other.kind);
    return byKind != 0 ? byKind : words.compareTo(other.words);
  }
}
