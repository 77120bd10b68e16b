package org.faultwright.planning;

import java.util.stream.Stream;
import org.faultwright.pack.Step;

/**
 * More than any policy can be expected to spend from a place on: every repair once and every test
 * before each and after the last, for each of them every switch turned on and off twice, and a
 * device that is sent on and comes back at the end.
 */
final class MostSpent {

  private MostSpent() {}

  static double from(Place place) {
    DeviceModel device = place.model().device;
    Costs costs = place.costs();
    double way = wayThroughAll(place);
    double tests = costs.proofCost * place.model().lost.size();
    double repairs = 0;
    int attempts = 0;
    for (int s = 0; s < device.steps.size(); s++) {
      Step step = device.steps.get(s);
      double cost = costs.ofStep(s) + way;
      boolean isRepair =
          step.proves().isEmpty() && (!step.changes().isEmpty() || step.swap().isPresent());
      int times = isRepair && step.repeatable() ? PolicyTree.MOST_STEPS : 1;
      attempts += isRepair ? times : 0;
      repairs += isRepair ? times * cost : 0;
      tests += isRepair ? 0 : cost;
    }
    // after a repair its function tests come first, and then the tests again
    return repairs + (1 + 2 * attempts) * tests + way + costs.exitFee() + costs.comeback;
  }

  private static double wayThroughAll(Place place) {
    Shop shop = place.job.planner().shop();
    return 2
        * place.model().device.pack().switches().values().stream()
            .flatMap(s -> Stream.concat(s.turnOn().stream(), s.turnOff().stream()))
            .mapToDouble(t -> BenchWays.cost(shop, t.effort()) + t.consumables())
            .sum();
  }
}
