package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.inference.BestSets;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Mixture;
import org.faultwright.pack.CauseId;

/** Which causes are present together, on the circuit that the evidence leaves of the causes. */
final class Together {

  /** Evaluations after which the search for the most probable sets is given up. */
  private static final int MOST_EVALUATIONS = 20_000;

  private final Map<CauseId, Ref> causes;
  private final Circuit left;
  private final double logTotal;

  Together(Network network, Mixture believed) {
    causes = network.causes;
    int[] kept =
        causes.values().stream()
            .filter(Ref.At.class::isInstance)
            .mapToInt(r -> ((Ref.At) r).variable())
            .distinct()
            .toArray();
    left = believed.given(kept);
    logTotal = left.evaluation().upward();
  }

  /** P(both present now). */
  double pBoth(CauseId a, CauseId b) {
    Evaluation evaluation = left.evaluation();
    for (CauseId c : List.of(a, b)) {
      if (causes.get(c) instanceof Ref.At at) {
        for (int s = 0; s < evaluation.states(at.variable()); s++) {
          if (s != at.state()) {
            evaluation.setWeight(at.variable(), s, 0);
          }
        }
      } else if (causes.get(c).equals(Ref.NO)) {
        return 0;
      }
    }
    return Math.min(1, Math.exp(evaluation.upward() - logTotal));
  }

  Explanations best(int count) {
    Map<BestSets.Literal, Integer> literals = new LinkedHashMap<>();
    causes.forEach(
        (c, ref) -> {
          if (ref instanceof Ref.At at) {
            literals.putIfAbsent(new BestSets.Literal(at.variable(), at.state()), literals.size());
          }
        });
    BestSets.Found found =
        BestSets.find(left, List.copyOf(literals.keySet()), count, MOST_EVALUATIONS);
    List<Explanations.Explanation> sets = new ArrayList<>();
    for (BestSets.Account account : found.accounts()) {
      Set<CauseId> present = new LinkedHashSet<>();
      causes.forEach(
          (c, ref) -> {
            if (ref instanceof Ref.At at
                ? account.holds()[literals.get(new BestSets.Literal(at.variable(), at.state()))]
                : ref.equals(Ref.YES)) {
              present.add(c);
            }
          });
      sets.add(new Explanations.Explanation(present, account.p()));
    }
    return new Explanations(sets, found.isExact());
  }
}
