package org.faultwright.compile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.Evaluation;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;

/**
 * Finds prior probabilities for which the shares that a pack states come out: a fixed point in the
 * log odds of the causes. See {@code engine/docs/semantics.md}, "Before anything is known".
 */
final class Shares {

  /** Sweeps after which shares count as unattainable. */
  static final int MOST_SWEEPS = 200;

  private static final double TOLERANCE = 1e-12;

  private final Pack pack;
  private final Network network;
  private final Circuit compiled;
  private final Map<ComplaintId, Map<CauseId, Double>> shares = new LinkedHashMap<>();
  private final Map<CauseId, Double> priors = new LinkedHashMap<>();

  Shares(Pack pack, Network network, Circuit compiled) {
    this.pack = pack;
    this.network = network;
    this.compiled = compiled;
    for (Cause c : pack.causes().values()) {
      if (c.likelihood() instanceof Cause.Likelihood.Share s) {
        shares.computeIfAbsent(s.of(), k -> new LinkedHashMap<>()).put(c.id(), s.share().p());
      } else if (c.likelihood() instanceof Cause.Likelihood.Prior p) {
        priors.put(c.id(), p.chance().p());
      }
    }
  }

  /** The solved priors of all causes that have a likelihood. */
  Map<CauseId, Double> priors() {
    return priors;
  }

  /** Solves; returns the complaint whose shares cannot be attained, if any. */
  Optional<ComplaintId> solve() {
    shares.forEach((f, of) -> of.forEach((c, s) -> priors.put(c, s * rate(f))));
    pack.groups().values().stream().filter(OneOf::certain).forEach(this::sumToOne);
    if (shares.isEmpty()) {
      return Optional.empty();
    }
    Optional<ComplaintId> off = Optional.empty();
    for (int sweep = 0; sweep < MOST_SWEEPS; sweep++) {
      Circuit circuit = network.withPriors(compiled, priors);
      off = Optional.empty();
      Map<CauseId, Double> next = new LinkedHashMap<>();
      for (ComplaintId f : shares.keySet()) {
        if (!sweep(circuit, f, next)) {
          off = Optional.of(f);
        }
      }
      if (off.isEmpty()) {
        return off;
      }
      next.forEach(priors::put);
      for (double p : priors.values()) {
        if (!(p >= 0 && p <= 1)) {
          return off;
        }
      }
    }
    return off;
  }

  private void sumToOne(OneOf certain) {
    double total = certain.members().stream().mapToDouble(m -> priors.getOrDefault(m, 0.0)).sum();
    certain.members().forEach(m -> priors.computeIfPresent(m, (c, p) -> p / total));
  }

  private double rate(ComplaintId f) {
    return pack.complaints().get(f).rate().p();
  }

  /** One sweep over the causes of a complaint; true when the shares and the rate are attained. */
  private boolean sweep(Circuit circuit, ComplaintId f, Map<CauseId, Double> next) {
    if (!(network.lostAtReport.get(f) instanceof Ref.At lost)) {
      return false;
    }
    Evaluation evaluation = circuit.evaluation();
    double[] only = new double[circuit.states(lost.variable())];
    only[lost.state()] = 1;
    evaluation.weigh(lost.variable(), only);
    double logLost = evaluation.upward();
    if (!Double.isFinite(logLost)) {
      return false;
    }
    evaluation.downward();
    Map<CauseId, Double> stated = shares.get(f);
    Map<CauseId, Double> given = new LinkedHashMap<>();
    double total = 0;
    for (CauseId c : stated.keySet()) {
      Ref ref = network.causes.get(c);
      double p = ref instanceof Ref.At at ? evaluation.marginal(at.variable(), at.state()) : 0;
      given.put(c, p);
      total += p;
    }
    double logPi = Math.log(rate(f));
    boolean certain = stated.keySet().stream().allMatch(this::inCertainGroup);
    boolean attained = certain || Math.abs(Math.exp(logLost - logPi) - 1) < TOLERANCE;
    for (CauseId c : stated.keySet()) {
      double share = stated.get(c);
      double r = given.get(c) / total;
      if (share == 0) {
        next.put(c, 0.0);
        continue;
      }
      attained &= Math.abs(r - share) < TOLERANCE;
      double step = Math.log(share / r) + (certain ? 0 : logPi - logLost);
      next.put(c, moved(c, step));
    }
    normaliseGroups(next);
    return attained;
  }

  private boolean inCertainGroup(CauseId c) {
    return pack.causes().get(c).oneOf().map(g -> pack.groups().get(g).certain()).orElse(false);
  }

  /**
   * The prior moved by a step in log odds (against none, for a member of a group; unnormalised
   * where none is ruled out).
   */
  private double moved(CauseId c, double step) {
    double p = priors.get(c);
    if (pack.causes().get(c).oneOf().isPresent()) {
      return p * Math.exp(step);
    }
    double logit = Math.log(p) - Math.log1p(-p) + step;
    return logit >= 0 ? 1 / (1 + Math.exp(-logit)) : Math.exp(logit) / (1 + Math.exp(logit));
  }

  private void normaliseGroups(Map<CauseId, Double> next) {
    for (OneOf group : pack.groups().values()) {
      List<CauseId> members = List.copyOf(group.members());
      if (members.stream().noneMatch(next::containsKey)) {
        continue;
      }
      double before = members.stream().mapToDouble(m -> priors.getOrDefault(m, 0.0)).sum();
      double none = group.certain() ? 0 : Math.max(0, 1 - before);
      double total = none;
      for (CauseId m : members) {
        total += next.containsKey(m) ? next.get(m) : priors.getOrDefault(m, 0.0);
      }
      for (CauseId m : members) {
        if (next.containsKey(m)) {
          next.put(m, next.get(m) / total);
        }
      }
    }
  }
}
