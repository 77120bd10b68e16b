package org.faultwright.benchmarks;

import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;

/**
 * How good plans are after how long: prints a table in Markdown with the gap to the optimum, at
 * most, and the time taken, by the clock and by the processor. Arguments: numbers of causes, {@code
 * unsure} or {@code three-outcomes}; none: 10, 20, 50, 100 and both.
 */
public final class PlanGap {

  private static final double[] SECONDS = {0.1, 0.5, 2, 8};
  private static final List<String> ALL =
      List.of("10", "20", "50", "100", "unsure", "three-outcomes");
  private static final long SEED = 1;

  private PlanGap() {}

  /** Measures. */
  public static void main(String[] args) {
    // the compiler of the virtual machine needs work of the same kind before it has done its own
    plan(shape("10"), 3);
    plan(shape("10"), 3);
    System.out.println(
        "| pack | budget | by the clock | processor | cost | at least | gap | left out |");
    System.out.println("|---|---|---|---|---|---|---|---|");
    for (String which : args.length > 0 ? List.of(args) : ALL) {
      for (double seconds : SECONDS) {
        System.out.printf(
            Locale.ROOT, "| %s | %.1f s | %s%n", which, seconds, plan(shape(which), seconds));
      }
    }
  }

  private static PlanProblem.Shape shape(String which) {
    return switch (which) {
      case "unsure" -> new PlanProblem.Shape(10, 8, 4, false, false, 3);
      case "three-outcomes" -> new PlanProblem.Shape(10, 8, 4, true, true, 3);
      default -> {
        int causes = Integer.parseInt(which);
        yield new PlanProblem.Shape(causes, causes * 4 / 5, causes * 2 / 5, false, true, 2);
      }
    };
  }

  private static String plan(PlanProblem.Shape shape, double seconds) {
    PlanProblem problem = new PlanProblem(shape, SEED);
    PlanLimits limits =
        new PlanLimits(Duration.ofMillis(Math.round(1000 * seconds)), 1000, 0.001, 30);
    long before = System.nanoTime();
    long processor = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    Plan plan = problem.plan(limits);
    return String.format(
        Locale.ROOT,
        "%.2f s | %.2f s | %.1f | %.1f | %.0f %% | %.1f %% |",
        (System.nanoTime() - before) / 1e9,
        (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - processor) / 1e9,
        plan.expectedCost(),
        plan.atLeast(),
        100 * plan.gap() / plan.expectedCost(),
        100 * plan.pLeftOut());
  }
}
