package org.faultwright.pack.format;

import java.util.Locale;

/**
 * What can be wrong with a value or a reference. Each has a page in the checks. Next to them stand
 * those of unknown ids, one for each {@link Kind}.
 */
public enum FormatRule {
  /** A list where a text should be, and the like. */
  WRONG_TYPE(true),
  /** A key with nothing after it. */
  EMPTY_VALUE(true),
  /** A key that format 1 does not have here. */
  UNKNOWN_KEY(true),
  /** A key that must be there. */
  MISSING_KEY(true),
  /** A key that must stand beside another one. */
  MISSING_BESIDE(false),
  /** None, or more than one, of keys of which one is needed. */
  CHOOSE_ONE(true),
  /** A word that is none of those allowed. */
  UNKNOWN_WORD(true),
  /** An id that is not spelt as ids are. */
  BAD_ID(true),
  /** Not a number, or not in its domain. */
  BAD_NUMBER(true),
  /** Not a probability. */
  BAD_CHANCE(true),
  /** Not a factor. */
  BAD_FACTOR(true),
  /** Not a time. */
  BAD_TIME(true),
  /** Not a value with a unit. */
  BAD_QUANTITY(false),
  /** A version that is none. */
  BAD_VERSION(true),
  /** A format that this version of the library does not read. */
  FORMAT_NOT_SUPPORTED(true),
  /** A probability below 0 or above 1. */
  CHANCE_OUT_OF_RANGE(false),
  /** Exactly 0 or 1 without a reason. */
  CERTAIN_WITHOUT_WHY(false),
  /** A number that rests on nothing. */
  NO_BASIS(false),
  /** Counts that contradict themselves. */
  BAD_COUNT(false),
  /** The same thing twice in a list. */
  LISTED_TWICE(false),
  /** The same id defined twice. */
  DEFINED_TWICE(false),
  /** An id that has a meaning of its own. */
  RESERVED_ID(false),
  /** An id that is now called differently. */
  RENAMED_ID(false),
  /** A fragment that is not there. */
  UNKNOWN_FRAGMENT(false),
  /** An outcome that a step does not have. */
  UNKNOWN_OUTCOME(false),
  /** A state that a point or an observation does not have. */
  UNKNOWN_STATE(false),
  /** A row that does not sum to 1. */
  ROW_SUM(false),
  /** A row that is missing or stands there twice. */
  ROWS_INCOMPLETE(false),
  /** Shares that do not sum to 1. */
  SHARES_SUM(false),
  /** A value of another kind of quantity. */
  WRONG_UNIT(false),
  /** Limits or a tolerance that enclose nothing. */
  BAD_LIMITS(false),
  /** A tolerance where there is nothing to tolerate, and the like. */
  KEY_NOT_NEEDED(false),
  /** More than there can be. */
  BAD_VOTE(false),
  /** Less likely with the cause than without. */
  RATE_BELOW_FALSE_ALARM(false),
  /** Something that depends on itself. */
  CYCLE(false);

  private final boolean structural;

  FormatRule(boolean structural) {
    this.structural = structural;
  }

  /** Whether the JSON Schema can see it, too: it needs to know nothing but the form. */
  public boolean structural() {
    return structural;
  }

  /** Its id. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
