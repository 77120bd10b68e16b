package org.faultwright.rules.facts;

import org.faultwright.pack.Conventions;
import org.faultwright.pack.StepId;

/** Concluded: a step may be done now. */
public record Open(StepId step) {

  /** Whether it saves the customer's data. */
  public boolean savesData() {
    return step.equals(Conventions.BACK_UP_DATA);
  }
}
