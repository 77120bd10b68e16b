package org.faultwright.diagnosis;

import java.util.List;
import java.util.Map;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Ordered;

/**
 * How likely each cause is, given all facts that stand. Exact. Several causes may be present at
 * once, so that the probabilities need not sum to 1.
 *
 * @param ranking all causes, the most likely first; ties in pack order
 * @param lost for each complaint, P(its function is lost now)
 * @param logPEvidence ln P(all facts); readings enter by their probability density
 */
public record Posterior(List<Ranked> ranking, Map<ComplaintId, Double> lost, double logPEvidence)
    implements Outlook {

  /** Copies the collections, keeping their order. */
  public Posterior {
    ranking = List.copyOf(ranking);
    lost = Ordered.copy(lost);
  }

  /**
   * A cause with its probability.
   *
   * @param p P(present now | facts)
   * @param pAtIntake P(present) per device taken in, before any fact
   */
  public record Ranked(CauseId cause, double p, double pAtIntake) {}

  /**
   * How likely a cause is.
   *
   * @throws IllegalArgumentException when the pack has no such cause
   */
  public double p(CauseId cause) {
    return ranking.stream()
        .filter(r -> r.cause().equals(cause))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("cause must be one of the pack: " + cause))
        .p();
  }

  /** The most likely cause. */
  public Ranked leader() {
    return ranking.get(0);
  }
}
