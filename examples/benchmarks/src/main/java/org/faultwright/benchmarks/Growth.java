package org.faultwright.benchmarks;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.Pack;

/**
 * How compiling and asking grow with the number of causes. Prints a table and draws {@code
 * growth.svg}, given the folder to draw it in. Times are those of the processor in the one thread,
 * medians of several runs, warmed.
 */
public final class Growth {

  private static final int[] CAUSES = {25, 50, 100, 200, 400, 800, 1600};
  private static final long SEED = 20;
  private static final int RUNS = 5;

  private record Row(
      int causes, double compileMillis, double caseMillis, int operations, double queryMicros) {}

  private Growth() {}

  /** Measures. */
  public static void main(String[] args) throws Exception {
    // the compiler of the virtual machine needs work of the same kind before it has done its own
    for (int i = 0; i < 3; i++) {
      measure(100);
    }
    List<Row> rows = new ArrayList<>();
    for (int n : CAUSES) {
      rows.add(measure(n));
    }
    print(rows);
    if (args.length > 0) {
      draw(rows, Path.of(args[0]).resolve("growth.svg"));
    }
  }

  private static Row measure(int causes) throws Exception {
    GrowingPack drawn = new GrowingPack(causes, SEED);
    Pack pack = drawn.pack();
    List<Told> facts = drawn.caseFile().facts();
    double compile = median(RUNS, 1, () -> compiled(pack)) / 1e6;
    CompiledPack compiled = compiled(pack);
    double first =
        median(
                RUNS,
                1,
                () -> {
                  CompiledPack fresh = compiled(pack);
                  long before = cpu();
                  belief(fresh, facts);
                  return cpu() - before;
                })
            / 1e6;
    belief(compiled, facts);
    int repeats = Math.max(5, 4000 / causes);
    double query = median(RUNS, repeats, () -> belief(compiled, facts)) / 1e3;
    return new Row(causes, compile, first, compiled.operations(), query);
  }

  private static CompiledPack compiled(Pack pack) {
    if (CompiledPack.compile(pack) instanceof CompiledPack compiled) {
      return compiled;
    }
    throw new IllegalStateException("pack must compile: " + pack.id());
  }

  private static Belief belief(CompiledPack compiled, List<Told> facts) {
    if (compiled.belief(facts) instanceof Belief belief) {
      return belief;
    }
    throw new IllegalStateException("facts must be possible: " + compiled.pack().id());
  }

  private static long cpu() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  /**
   * Nanoseconds of one call; what a call returns as a {@code Long} is taken for its own measure.
   */
  private static double median(int runs, int repeats, Callable<?> call) throws Exception {
    double[] nanos = new double[runs];
    for (int r = 0; r < runs; r++) {
      long before = cpu();
      Object result = null;
      for (int i = 0; i < repeats; i++) {
        result = call.call();
      }
      nanos[r] = result instanceof Long own ? own : (double) (cpu() - before) / repeats;
    }
    Arrays.sort(nanos);
    return nanos[runs / 2];
  }

  private static void print(List<Row> rows) {
    StringBuilder text = new StringBuilder();
    text.append(
        "| causes | compile the pack | first answer to a case | operations | asked again |\n");
    text.append("|---|---|---|---|---|\n");
    for (Row r : rows) {
      text.append(
          String.format(
              Locale.ROOT,
              "| %d | %.1f ms | %.1f ms | %,d | %.0f µs |%n",
              r.causes,
              r.compileMillis,
              r.caseMillis,
              r.operations,
              r.queryMicros));
    }
    System.out.print(text);
  }

  private static void draw(List<Row> rows, Path file) throws IOException {
    LogLogPlot plot = new LogLogPlot("causes", 10, 10_000, 1, 1_000_000);
    plot.series("compile the pack, µs", "#1b6ca8", points(rows, r -> r.compileMillis * 1e3));
    plot.series("first answer to a case, µs", "#7a4fa3", points(rows, r -> r.caseMillis * 1e3));
    plot.series("operations of the circuit", "#2e7d32", points(rows, r -> r.operations));
    plot.series("asked again, µs", "#c0392b", points(rows, r -> r.queryMicros));
    Files.writeString(file, plot.svg());
  }

  private static double[][] points(List<Row> rows, java.util.function.ToDoubleFunction<Row> value) {
    return rows.stream()
        .map(r -> new double[] {r.causes, value.applyAsDouble(r)})
        .toArray(double[][]::new);
  }
}
