package org.faultwright.rules;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Guard;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Ordered;
import org.faultwright.pack.StepId;

/**
 * Whether a step may be done now, and what is to be said beside it.
 *
 * @param guard the composed condition under which it is allowed, for imagined situations too
 * @param blocked why it is not open; empty: it is open
 * @param turns the bench positions to bring about for it, in an order that works; empty also where
 *     they cannot be reached
 * @param cautions shown beside it: its own, and those of the turns
 */
public record StepStatus(
    StepId step,
    Guard guard,
    List<Blocked> blocked,
    List<BenchState> turns,
    Set<CautionId> cautions) {

  /** Copies the collections, keeping their order. */
  public StepStatus {
    blocked = List.copyOf(blocked);
    turns = List.copyOf(turns);
    cautions = Ordered.copy(cautions);
  }

  /** Whether the step may be done now. */
  public boolean isOpen() {
    return blocked.isEmpty();
  }

  /** Whether one of the reasons why it is not open is of this kind. */
  public boolean isBlockedBy(Blocked.Kind kind) {
    return blocked.stream().anyMatch(b -> b.kind() == kind);
  }

  /**
   * What the customer would have to agree to, where that alone would open the step; empty where it
   * is open already, or something else stands in the way.
   */
  public Set<ConsentId> opensWithConsent() {
    if (blocked.stream().anyMatch(b -> b.kind() != Blocked.Kind.LACKS_CONSENT)) {
      return Set.of();
    }
    return Ordered.copy(blocked.stream().map(Blocked::consent).flatMap(Optional::stream).toList());
  }
}
