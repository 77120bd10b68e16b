package org.faultwright.cli;

import java.util.Optional;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.planning.ComparisonLimits;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import picocli.CommandLine.Option;

/** Whether a plan is held against rules of thumb, and how. */
final class CompareOption {

  private static final int MOST_DEVICES = 1_000_000;

  @Option(
      names = "--compare",
      description =
          "Hold the plan against rules of thumb: the test that tells most per cost, the repair"
              + " likeliest to help per cost, the repair of the likeliest cause.")
  private boolean compare;

  @Option(
      names = "--devices",
      paramLabel = "NUMBER",
      description =
          "With --compare: also try each out on so many devices drawn at random, as in --devices"
              + " 10000.")
  private int devices;

  @Option(
      names = "--seed",
      paramLabel = "NUMBER",
      defaultValue = "1",
      description =
          "With --devices: the same number draws the same devices. Default:" + " ${DEFAULT-VALUE}.")
  private long seed;

  void check() {
    if (devices != 0 && (devices < 2 || devices > MOST_DEVICES)) {
      throw Stopped.byUsage("--devices must be from 2 to " + MOST_DEVICES + ": " + devices);
    }
    if (devices != 0 && !compare) {
      throw Stopped.byUsage("--devices needs --compare");
    }
  }

  Optional<PlanComparison> compare(Diagnosis diagnosis, Plan plan) {
    int places = ComparisonLimits.ORDINARY.mostPlaces();
    return compare
        ? diagnosis.compare(plan, new ComparisonLimits(places, devices, seed))
        : Optional.empty();
  }
}
