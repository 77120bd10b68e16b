package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.faultwright.pack.Step;

/**
 * More than a policy can be expected to spend from a place on: its dearest steps, each repair that
 * is not repeatable once and followed by every function test there is, for each step and function
 * test every switch turned on and off, and a device that is sent on and comes back at the end.
 */
final class MostSpent {

  private MostSpent() {}

  static double from(Place place, int mostSteps) {
    DeviceModel device = place.model().device;
    Costs costs = place.costs();
    double way = wayThroughAll(place);
    double proofs = 0;
    for (CaseModel.Proof proof : place.model().proofs) {
      proofs += proof.step() < 0 ? costs.proofCost : costs.ofStep(proof.step()) + way;
    }
    List<Double> dearest = new ArrayList<>();
    for (int s = 0; s < device.steps.size(); s++) {
      Step step = device.steps.get(s);
      boolean isRepair =
          step.proves().isEmpty() && (!step.changes().isEmpty() || step.swap().isPresent());
      double cost = costs.ofStep(s) + way + (isRepair ? proofs : 0);
      int times = isRepair && !step.repeatable() ? 1 : mostSteps;
      for (int i = 0; i < times; i++) {
        dearest.add(cost);
      }
    }
    dearest.sort(Comparator.reverseOrder());
    return dearest.stream().limit(mostSteps).mapToDouble(c -> c).sum()
        + way
        + costs.exitFee()
        + costs.comeback;
  }

  private static double wayThroughAll(Place place) {
    Shop shop = place.job.planner().shop();
    return place.model().device.pack().switches().values().stream()
        .flatMap(s -> Stream.concat(s.turnOn().stream(), s.turnOff().stream()))
        .mapToDouble(t -> BenchWays.cost(shop, t.effort()) + t.consumables())
        .sum();
  }
}
