package org.faultwright.planning;

import java.util.Map;
import org.faultwright.pack.Ordered;
import org.faultwright.planning.PlanNode.Ending;

/**
 * What came out for devices that were drawn at random. Immutable.
 *
 * @param devices how many were drawn
 * @param cost what a job cost on average, in the shop's currency
 * @param costError the standard error of that average
 * @param hands minutes with hands on the device, on average
 * @param handsError the standard error of that average
 * @param endings the share of jobs that ended so, for each ending
 * @param comebacks the share of devices that came back
 */
public record Simulated(
    int devices,
    double cost,
    double costError,
    double hands,
    double handsError,
    Map<Ending, Double> endings,
    double comebacks) {

  /** Copies the map, keeping its order. */
  public Simulated {
    endings = Ordered.copy(endings);
  }
}
