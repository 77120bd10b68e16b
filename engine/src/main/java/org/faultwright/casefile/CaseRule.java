package org.faultwright.casefile;

import java.util.Locale;

/** What can be wrong with a case beyond its form. Each has a page in the checks. */
public enum CaseRule {
  /** The case names another pack than it is read with. */
  OTHER_PACK,
  /** The case was written for another version of the pack. */
  OTHER_PACK_VERSION,
  /** The decisive fact is none of those labelled. */
  UNKNOWN_LABEL,
  /** Two facts with the same label. */
  LABEL_TWICE,
  /** A pin table with a pin or a value that cannot be. */
  PIN_TABLE;

  /** Its id. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
