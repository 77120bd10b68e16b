package org.faultwright.pack.merge;

import java.util.LinkedHashMap;
import java.util.Map;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Cause.Likelihood;
import org.faultwright.pack.Chance;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.PackDraft;

/**
 * Shares of a complaint some of whose causes have their likelihood from another pack: the others
 * share what is left, in the proportions that their pack states.
 */
final class MergedShares {

  /** How far shares that were summed as decimals may be from 1 as doubles. */
  private static final double ROUNDING = 1e-9;

  private MergedShares() {}

  static void settle(PackDraft draft) {
    Map<ComplaintId, Double> sums = new LinkedHashMap<>();
    for (Cause c : draft.causes.values()) {
      if (c.likelihood() instanceof Likelihood.Share s) {
        sums.merge(s.of(), s.share().p(), Double::sum);
      }
    }
    draft.causes.replaceAll((id, c) -> settled(c, sums));
  }

  private static Cause settled(Cause c, Map<ComplaintId, Double> sums) {
    if (!(c.likelihood() instanceof Likelihood.Share s)) {
      return c;
    }
    double sum = sums.get(s.of());
    if (sum == 0 || Math.abs(sum - 1) < ROUNDING) {
      return c;
    }
    Chance share = new Chance(s.share().p() / sum, s.share().basis(), s.share().why());
    return c.withLikelihood(new Likelihood.Share(s.of(), share));
  }
}
