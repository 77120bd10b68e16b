package org.faultwright.oracle;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.GroupId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Pack;

/** Draws devices of a pack, each with its history and its causes, for a bench that is simulated. */
public final class BenchSimulator {

  private final Pack pack;
  private final Priors priors;
  private final Meter meter;
  private final SplittableRandom random;

  /**
   * A simulator.
   *
   * @param pOwn for each cause the probability that it is present by itself, history unknown; a
   *     cause that is missing is only caused by others
   */
  public BenchSimulator(
      Pack pack, Map<CauseId, Double> pOwn, Meter meter, SplittableRandom random) {
    this.pack = pack;
    this.priors = new Priors(pack, pOwn);
    this.meter = meter;
    this.random = random;
  }

  /** Another device, as it is taken in. */
  public Device draw() {
    SplittableRandom own = random.split();
    Map<HistoryId, Boolean> histories = new LinkedHashMap<>();
    pack.histories()
        .forEach((id, history) -> histories.put(id, own.nextDouble() < history.likely().p()));
    Set<CauseId> present = new LinkedHashSet<>();
    for (GroupId group : pack.groups().keySet()) {
      draw(priors.of(group), histories, own).ifPresent(present::add);
    }
    for (Cause cause : pack.causes().values()) {
      if (cause.oneOf().isEmpty()) {
        draw(priors.of(cause.id()), histories, own).ifPresent(present::add);
      }
    }
    return new Device(pack, meter, own, histories, present);
  }

  private Optional<CauseId> draw(
      Priors.Own variable, Map<HistoryId, Boolean> histories, SplittableRandom own) {
    Set<HistoryId> happened = new LinkedHashSet<>(variable.histories());
    happened.removeIf(h -> !histories.get(h));
    double[] p = priors.given(variable, happened);
    List<Optional<CauseId>> states = variable.states();
    double left = own.nextDouble();
    for (int i = 0; i < p.length; i++) {
      left -= p[i];
      if (left < 0) {
        return states.get(i);
      }
    }
    return states.get(mostLikely(p)); // the sum of p may be one rounding below 1
  }

  private static int mostLikely(double[] p) {
    int best = 0;
    for (int i = 1; i < p.length; i++) {
      best = p[i] > p[best] ? i : best;
    }
    return best;
  }
}
