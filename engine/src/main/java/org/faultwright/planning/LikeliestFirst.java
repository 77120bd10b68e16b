package org.faultwright.planning;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.faultwright.planning.Assessment.Repairing;

/**
 * Swaps the likeliest: no tests, each time the repair of the most probable cause that one worth
 * trying can cure; of several the surest, then the cheapest, then the first in the pack.
 */
final class LikeliestFirst implements Policy {

  @Override
  public Choice choose(Place place) {
    List<Repairing> repairs = WorthTrying.at(place);
    double[] pPresent = place.pPresent();
    return IntStream.range(0, pPresent.length)
        .filter(c -> place.model().bearsOnLost(c) && pPresent[c] > 0)
        .boxed()
        .sorted(Comparator.comparingDouble(c -> -pPresent[c]))
        .flatMap(c -> best(place, repairs, c).stream())
        .findFirst()
        .<Choice>map(Choice.Repair::new)
        .orElseGet(Choice.End::new);
  }

  private static Optional<Repairing> best(Place place, List<Repairing> repairs, int cause) {
    return repairs.stream()
        .filter(r -> pCures(place, r, cause) > 0)
        .min(
            Comparator.comparingDouble((Repairing r) -> -pCures(place, r, cause))
                .thenComparingDouble(Repairing::cost));
  }

  private static double pCures(Place place, Repairing repair, int cause) {
    return 1 - place.model().device.effects[repair.step()].pStays(cause);
  }
}
