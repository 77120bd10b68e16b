package org.faultwright.rules.facts;

import org.faultwright.casefile.FactId;
import org.faultwright.pack.StepId;

/** Concluded: an outcome or a reading counts, and tells of the device as it is now. */
public record Current(FactId id, StepId step, Topic topic) {

  /** Whether it is an outcome. */
  public boolean outcome() {
    return topic.kind() == Topic.Kind.OUTCOME;
  }

  /** Whether it is a reading. */
  public boolean reading() {
    return topic.kind() == Topic.Kind.READING;
  }
}
