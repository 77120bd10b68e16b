package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;

/**
 * Finds the prior probabilities that give the causes of a complaint the shares that they state, by
 * the sweeps of {@code engine/docs/semantics.md} on enumerated worlds.
 */
public final class ShareSolver {

  private static final int MOST_SWEEPS = 200;
  private static final double CLOSE_ENOUGH = 1e-12;

  /** How a complaint and its causes stand with the priors of the moment. */
  private record Found(double pLost, Map<CauseId, Double> pGivenLost) {
    double share(CauseId cause) {
      return pGivenLost.get(cause)
          / pGivenLost.values().stream().mapToDouble(Double::doubleValue).sum();
    }
  }

  private final Pack pack;
  private final Map<ComplaintId, Map<CauseId, Double>> shares = new LinkedHashMap<>();
  private final Map<CauseId, Double> pOwn = new LinkedHashMap<>();

  private ShareSolver(Pack pack) {
    this.pack = pack;
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.Prior prior) {
        pOwn.put(cause.id(), prior.chance().p());
      } else if (cause.likelihood() instanceof Cause.Likelihood.Share share) {
        Complaint complaint = pack.complaints().get(share.of());
        pOwn.put(cause.id(), complaint.rate().p() * share.share().p());
        shares
            .computeIfAbsent(share.of(), c -> new LinkedHashMap<>())
            .put(cause.id(), share.share().p());
      }
    }
    for (OneOf group : pack.groups().values()) {
      if (group.certain()) {
        normalise(group);
      }
    }
  }

  /**
   * For each cause, the probability that it is present by itself, history unknown: what it states,
   * or what makes its share come true.
   *
   * @return empty where the shares cannot be reached
   */
  public static Optional<Map<CauseId, Double>> solve(Pack pack) {
    ShareSolver solver = new ShareSolver(pack);
    for (int sweep = 0; sweep <= MOST_SWEEPS; sweep++) {
      Map<ComplaintId, Found> found = new LinkedHashMap<>();
      solver.shares.keySet().forEach(c -> found.put(c, solver.look(c)));
      if (solver.isDone(found)) {
        return Optional.of(solver.pOwn);
      }
      if (!solver.sweep(found)) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }

  private boolean isDone(Map<ComplaintId, Found> all) {
    for (Map.Entry<ComplaintId, Map<CauseId, Double>> entry : shares.entrySet()) {
      Found found = all.get(entry.getKey());
      double rate = pack.complaints().get(entry.getKey()).rate().p();
      boolean free = entry.getValue().keySet().stream().noneMatch(this::isInCertainGroup);
      if (free && Math.abs(found.pLost() - rate) > CLOSE_ENOUGH) {
        return false;
      }
      for (Map.Entry<CauseId, Double> share : entry.getValue().entrySet()) {
        if (Math.abs(found.share(share.getKey()) - share.getValue()) > CLOSE_ENOUGH) {
          return false;
        }
      }
    }
    return true;
  }

  private boolean isInCertainGroup(CauseId cause) {
    return pack.causes().get(cause).oneOf().map(g -> pack.groups().get(g).certain()).orElse(false);
  }

  private Found look(ComplaintId complaint) {
    List<CauseId> causes = List.copyOf(shares.get(complaint).keySet());
    Map<List<Boolean>, Double> lost =
        new WorldEnumerator(pack, pOwn, List.of(), ReadingLikelihood.NONE)
            .joint(
                world -> {
                  if (!world.wasLostAtFirst(complaint)) {
                    return List.<Boolean>of();
                  }
                  return causes.stream().map(world::wasPresentAtFirst).toList();
                });
    lost.remove(List.<Boolean>of());
    double pLost = lost.values().stream().mapToDouble(Double::doubleValue).sum();
    Map<CauseId, Double> pGivenLost = new LinkedHashMap<>();
    for (int i = 0; i < causes.size(); i++) {
      double sum = 0;
      for (Map.Entry<List<Boolean>, Double> entry : lost.entrySet()) {
        sum += entry.getKey().get(i) ? entry.getValue() : 0;
      }
      pGivenLost.put(causes.get(i), sum / pLost);
    }
    return new Found(pLost, pGivenLost);
  }

  /** One sweep over all complaints; false where it leads nowhere. */
  private boolean sweep(Map<ComplaintId, Found> all) {
    Map<CauseId, Double> factors = new LinkedHashMap<>();
    for (ComplaintId complaint : shares.keySet()) {
      Found found = all.get(complaint);
      double rate = pack.complaints().get(complaint).rate().p();
      shares
          .get(complaint)
          .forEach(
              (cause, s) ->
                  factors.put(cause, s == 0 ? 0 : s / found.share(cause) * rate / found.pLost()));
    }
    for (CauseId cause : factors.keySet()) {
      if (pack.causes().get(cause).oneOf().isEmpty()) {
        double odds = pOwn.get(cause) / (1 - pOwn.get(cause)) * factors.get(cause);
        pOwn.put(cause, odds / (1 + odds));
      }
    }
    for (GroupId group : pack.groups().keySet()) {
      scale(pack.groups().get(group), factors);
    }
    return factors.entrySet().stream()
        .allMatch(e -> e.getValue() == 0 || isReasonable(pOwn.get(e.getKey())));
  }

  /** Not on its way to 0 or 1, where no odds could be solved. */
  private static boolean isReasonable(double p) {
    return p > 1e-100 && p <= 1;
  }

  /** Multiplies the odds of members against none, or, without none, their probabilities. */
  private void scale(OneOf group, Map<CauseId, Double> factors) {
    if (group.members().stream().noneMatch(factors::containsKey)) {
      return;
    }
    double none = group.certain() ? 0 : 1 - sum(group);
    group
        .members()
        .forEach(m -> pOwn.computeIfPresent(m, (c, p) -> p * factors.getOrDefault(m, 1.0)));
    double total = none + sum(group);
    group.members().forEach(m -> pOwn.computeIfPresent(m, (cause, p) -> p / total));
  }

  private void normalise(OneOf group) {
    double total = sum(group);
    group.members().forEach(m -> pOwn.computeIfPresent(m, (cause, p) -> p / total));
  }

  private double sum(OneOf group) {
    List<Double> members = new ArrayList<>();
    group.members().forEach(m -> members.add(pOwn.getOrDefault(m, 0.0)));
    return members.stream().mapToDouble(Double::doubleValue).sum();
  }
}
