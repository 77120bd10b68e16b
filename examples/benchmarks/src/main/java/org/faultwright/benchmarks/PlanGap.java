package org.faultwright.benchmarks;

import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.Locale;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;

/**
 * How good plans are after how long: prints a table in Markdown with the gap to the optimum, at
 * most, and the time taken, by the clock and by the processor. Arguments: numbers of causes; none:
 * 10, 20, 50 and 100.
 */
public final class PlanGap {

  private static final double[] SECONDS = {0.1, 0.5, 2, 8};
  private static final long SEED = 1;

  private PlanGap() {}

  /** Measures. */
  public static void main(String[] args) {
    int[] causes = {10, 20, 50, 100};
    if (args.length > 0) {
      causes = java.util.Arrays.stream(args).mapToInt(Integer::parseInt).toArray();
    }
    // the compiler of the virtual machine needs work of the same kind before it has done its own
    plan(shape(causes[0]), 3);
    System.out.println("| causes | budget | by the clock | processor | cost | at least | gap |");
    System.out.println("|---|---|---|---|---|---|---|");
    for (int n : causes) {
      for (double seconds : SECONDS) {
        plan(shape(n), seconds);
      }
    }
  }

  private static PlanProblem.Shape shape(int causes) {
    return new PlanProblem.Shape(causes, causes * 4 / 5, causes * 2 / 5, false, true, 2);
  }

  private static void plan(PlanProblem.Shape shape, double seconds) {
    PlanProblem problem = new PlanProblem(shape, SEED);
    PlanLimits limits =
        new PlanLimits(Duration.ofMillis(Math.round(1000 * seconds)), 1000, 0.001, 30);
    long before = System.nanoTime();
    long processor = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    Plan plan = problem.plan(limits);
    System.out.printf(
        Locale.ROOT,
        "| %d | %.1f s | %.2f s | %.2f s | %.1f | %.1f | %.0f %% |%n",
        shape.causes(),
        seconds,
        (System.nanoTime() - before) / 1e9,
        (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - processor) / 1e9,
        plan.expectedCost(),
        plan.atLeast(),
        100 * plan.gap() / plan.expectedCost());
  }
}
