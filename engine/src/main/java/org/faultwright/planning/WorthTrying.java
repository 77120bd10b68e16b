package org.faultwright.planning;

import java.util.List;
import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Place.Chance;

/**
 * The repairs that rules of thumb choose among: open, not done before, and worth trying, which is
 * to say that to try them and to end the job where they fail costs less than to end it now.
 */
final class WorthTrying {

  private WorthTrying() {}

  /** Such repairs, in the pack's order. */
  static List<Repairing> at(Place place) {
    return place.repairs().stream()
        .filter(r -> place.bearsOnLost(r) && !place.isDone(r.step()))
        .filter(r -> r.cost() < place.exit())
        .filter(r -> thenEnd(place, r) < place.exit() - RepairSearch.ROUNDING * place.exit())
        .toList();
  }

  private static double thenEnd(Place place, Repairing repair) {
    Costs costs = place.costs();
    Chance chance = place.chance(repair);
    double handedOver = costs.close(repair.bench()) + chance.pComeback() * costs.comeback;
    return repair.cost()
        + chance.pPass() * handedOver
        + (1 - chance.pPass()) * costs.exit(repair.bench()).cost();
  }
}
