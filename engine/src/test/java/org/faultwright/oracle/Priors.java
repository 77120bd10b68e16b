package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OneOf;
import org.faultwright.pack.Pack;

/**
 * How causes come about by themselves before the first attempt: one variable for each cause outside
 * a group, one for each group.
 */
final class Priors {

  /**
   * A variable with its states.
   *
   * @param states the causes, and an empty state where it may be none of them
   * @param histories what its odds depend on
   * @param weights of the states where no history has happened
   */
  record Own(List<Optional<CauseId>> states, List<HistoryId> histories, double[] weights) {}

  private final Pack pack;
  private final Map<CauseId, Double> pOwn;
  private final Map<CauseId, Own> ownOfCause = new LinkedHashMap<>();
  private final Map<GroupId, Own> ownOfGroup = new LinkedHashMap<>();

  /**
   * Solves the base odds of all causes.
   *
   * @param pOwn for each cause, the probability that it is present by itself, history unknown; a
   *     cause that is missing is only caused by others
   */
  Priors(Pack pack, Map<CauseId, Double> pOwn) {
    this.pack = pack;
    this.pOwn = pOwn;
    for (OneOf group : pack.groups().values()) {
      ownOfGroup.put(group.id(), own(group.members(), !group.certain()));
    }
    for (Cause cause : pack.causes().values()) {
      if (cause.oneOf().isEmpty()) {
        ownOfCause.put(cause.id(), own(Set.of(cause.id()), true));
      } else if (!cause.follows().isEmpty()) {
        throw new IllegalArgumentException("a member of a group that follows: " + cause.id());
      }
    }
  }

  Own of(CauseId cause) {
    return ownOfCause.get(cause);
  }

  Own of(GroupId group) {
    return ownOfGroup.get(group);
  }

  private Own own(Set<CauseId> members, boolean orNone) {
    List<Optional<CauseId>> states = new ArrayList<>();
    Set<HistoryId> histories = new LinkedHashSet<>();
    for (CauseId member : members) {
      states.add(Optional.of(member));
      histories.addAll(pack.causes().get(member).after().keySet());
    }
    double[] stated = new double[states.size() + (orNone ? 1 : 0)];
    double sum = 0;
    for (int j = 0; j < states.size(); j++) {
      stated[j] = pOwn.getOrDefault(states.get(j).orElseThrow(), 0.0);
      sum += stated[j];
    }
    if (orNone) {
      states.add(Optional.empty());
      stated[states.size() - 1] = 1 - sum;
    }
    if (sum > 1 + 1e-12 || (!orNone && Math.abs(sum - 1) > 1e-9)) {
      throw new IllegalArgumentException("probabilities of " + members + " sum to " + sum);
    }
    return new Own(states, List.copyOf(histories), solve(states, List.copyOf(histories), stated));
  }

  private double[] solve(
      List<Optional<CauseId>> states, List<HistoryId> histories, double[] stated) {
    List<double[]> factors = new ArrayList<>();
    List<Double> chances = new ArrayList<>();
    for (int pattern = 0; pattern < 1 << histories.size(); pattern++) {
      Set<HistoryId> happened = new LinkedHashSet<>();
      double p = 1;
      for (int i = 0; i < histories.size(); i++) {
        double likely = pack.histories().get(histories.get(i)).likely().p();
        if ((pattern >> i & 1) == 1) {
          happened.add(histories.get(i));
          p *= likely;
        } else {
          p *= 1 - likely;
        }
      }
      if (p > 0) {
        factors.add(factors(states, happened));
        chances.add(p);
      }
    }
    return BaseWeights.solve(
        chances.stream().mapToDouble(x -> x).toArray(), factors.toArray(double[][]::new), stated);
  }

  /** What each state's weight is multiplied by where these histories have happened. */
  double[] factors(List<Optional<CauseId>> states, Set<HistoryId> happened) {
    double[] factors = new double[states.size()];
    for (int j = 0; j < factors.length; j++) {
      factors[j] = 1;
      if (states.get(j).isPresent()) {
        Map<HistoryId, Double> after = pack.causes().get(states.get(j).get()).after();
        for (HistoryId h : happened) {
          factors[j] *= after.getOrDefault(h, 1.0);
        }
      }
    }
    return factors;
  }

  /** The probability of each state of a variable where these histories have happened. */
  double[] given(Own own, Set<HistoryId> happened) {
    return BaseWeights.given(factors(own.states(), happened), own.weights());
  }

  /**
   * The priors that a pack states, for packs whose causes state no shares.
   *
   * @throws IllegalArgumentException when a cause states a share
   */
  static Map<CauseId, Double> stated(Pack pack) {
    Map<CauseId, Double> stated = new LinkedHashMap<>();
    for (Cause cause : pack.causes().values()) {
      if (cause.likelihood() instanceof Cause.Likelihood.Prior prior) {
        Chance chance = prior.chance();
        stated.put(cause.id(), chance.p());
      } else if (cause.likelihood() instanceof Cause.Likelihood.Share) {
        throw new IllegalArgumentException("states a share: " + cause.id());
      }
    }
    return stated;
  }
}
