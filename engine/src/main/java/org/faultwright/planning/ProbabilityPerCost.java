package org.faultwright.planning;

import org.faultwright.planning.Assessment.Repairing;
import org.faultwright.planning.Place.Chance;

/**
 * Repairs by the probability that they succeed per cost, no tests: the best order of looking where
 * there is one fault, each repair cures one cause for certain and costs do not depend on what was
 * done before (J. B. Kadane, H. A. Simon, Optimal strategies for a class of constrained sequential
 * problems, The Annals of Statistics 5, 1977, 237-255). A repair succeeds where its function tests
 * pass and the device does not come back.
 */
final class ProbabilityPerCost implements Policy {

  @Override
  public Choice choose(Place place) {
    Repairing best = null;
    double bestSuccess = 0;
    for (Repairing r : WorthTrying.at(place)) {
      Chance chance = place.chance(r);
      double success = chance.pPass() * (1 - chance.pComeback());
      if (best == null
          || success * best.cost() > bestSuccess * r.cost() * (1 + RepairSearch.ROUNDING)) {
        best = r;
        bestSuccess = success;
      }
    }
    return best == null ? new Choice.End() : new Choice.Repair(best);
  }
}
