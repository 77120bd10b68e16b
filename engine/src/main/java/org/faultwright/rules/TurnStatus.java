package org.faultwright.rules;

import java.util.List;
import org.faultwright.casefile.Guard;
import org.faultwright.pack.BenchState;

/**
 * Whether a switch may be turned into a position now, as far as holds and consent go; the positions
 * of other switches that the turn needs are not looked at.
 *
 * @param guard the condition under which it is allowed, for imagined situations too
 * @param blocked why it is not allowed; empty: it is
 */
public record TurnStatus(BenchState target, Guard guard, List<Blocked> blocked) {

  /** Copies the list. */
  public TurnStatus {
    blocked = List.copyOf(blocked);
  }

  /** Whether the turn is allowed now. */
  public boolean isPermitted() {
    return blocked.isEmpty();
  }
}
