package org.faultwright.benchmarks;

import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.LongStream;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanLimits;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Whole plans up to the proof that no plan is cheaper, on packs drawn at random. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 5)
@Measurement(iterations = 5, time = 5)
public class PlanBenchmark {

  private static final int PACKS = 5;

  /** Causes, tests and repairs, up to three faults at once; the last two: up to two. */
  @Param({"10-8-4", "6-6-6", "6-4-3-unsure", "6-5-3-three-outcomes"})
  public String shape;

  private List<PlanProblem> problems;

  /** Draws the packs. */
  @Setup
  public void draw() {
    PlanProblem.Shape drawn =
        switch (shape) {
          case "10-8-4" -> new PlanProblem.Shape(10, 8, 4, false, true, 3);
          case "6-6-6" -> new PlanProblem.Shape(6, 6, 6, false, true, 3);
          case "6-4-3-unsure" -> new PlanProblem.Shape(6, 4, 3, false, false, 2);
          case "6-5-3-three-outcomes" -> new PlanProblem.Shape(6, 5, 3, true, true, 2);
          default -> throw new IllegalArgumentException("no such shape: " + shape);
        };
    problems = LongStream.rangeClosed(1, PACKS).mapToObj(s -> new PlanProblem(drawn, s)).toList();
  }

  /** One plan, of five packs in turn; nothing is kept from one plan to the next. */
  @Benchmark
  @OperationsPerInvocation(PACKS)
  public double exactPlan() {
    double sum = 0;
    for (PlanProblem problem : problems) {
      Plan plan = problem.plan(PlanLimits.EXACT);
      if (!plan.isOptimal()) {
        throw new IllegalStateException("plan must be proved: gap " + plan.gap());
      }
      sum += plan.expectedCost();
    }
    return sum;
  }
}
