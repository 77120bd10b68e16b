package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/**
 * A point that a step reads on this device.
 *
 * @param topic of its readings
 */
public record PackPoint(StepId step, Topic topic) {

  /** Whether it has been read so often that it is left alone. */
  public boolean readEnough(Number times) {
    return times.intValue() >= PackStep.MOST_REPEATS;
  }
}
