package org.faultwright.pack;

import java.util.Set;

/**
 * Forbids activities until something is done.
 *
 * @param when what raises it
 * @param forbids the activities it forbids
 * @param until what lifts it
 * @param says what the technician reads
 */
public record Hold(
    HoldId id, Condition when, Set<ActivityId> forbids, Condition until, String says) {

  /** Copies the activities, keeping their order. */
  public Hold {
    forbids = Ordered.copy(forbids);
  }
}
