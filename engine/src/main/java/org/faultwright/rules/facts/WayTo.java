package org.faultwright.rules.facts;

import java.util.List;
import org.faultwright.pack.BenchState;

/**
 * Concluded: how the bench gets to where something needs it.
 *
 * @param turns the positions to turn to, in order
 * @param missing positions that cannot be brought about
 */
public record WayTo(Subject subject, List<BenchState> turns, List<BenchState> missing) {

  /** Whether there is a way. */
  public boolean exists() {
    return missing.isEmpty();
  }

  /** Whether it is about closing the device. */
  public boolean closing() {
    return subject instanceof Subject.OfClosing;
  }
}
