package org.faultwright.rules.facts;

import org.faultwright.pack.Id;

/** What a fact is about: two facts with the same topic tell of the same thing. */
public record Topic(Kind kind, Id about) {

  /** Kinds of topics. */
  public enum Kind {
    /** Whether the customer reports a complaint. */
    COMPLAINT,
    /** What the customer says of the device's history. */
    HISTORY_SAID,
    /** What we see of its traces. */
    HISTORY_SEEN,
    /** A symptom. */
    SYMPTOM,
    /** Whether the customer agrees to something. */
    CONSENT,
    /** How a step came out. */
    OUTCOME,
    /** The reading at a point. */
    READING
  }
}
