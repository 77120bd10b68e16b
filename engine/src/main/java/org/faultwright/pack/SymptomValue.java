package org.faultwright.pack;

/** What is known of a symptom. */
public enum SymptomValue {
  /** Seen or heard. */
  PRESENT,
  /** Looked for closely, and not there. */
  ABSENT,
  /** There at times. */
  SOMETIMES,
  /** Not noticed at a first look: weaker than absent. */
  NOT_SEEN,
  /** Nobody looked. */
  NOT_KNOWN
}
