package org.faultwright.rules;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.Hold;
import org.faultwright.pack.Ordered;

/**
 * A hold that forbids its activities now.
 *
 * @param reasons the facts that raised it, in order of telling; empty where the bench as it was
 *     taken in did
 */
public record HoldInForce(Hold hold, Set<FactId> reasons) {

  /** Copies the facts, keeping their order. */
  public HoldInForce {
    reasons = Ordered.copy(reasons);
  }
}
