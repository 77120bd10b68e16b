package org.faultwright.benchmarks;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.openjdk.jmh.runner.options.VerboseMode;

/**
 * All contenders on all networks, interleaved: each round runs every benchmark once, in a fresh
 * virtual machine, before the next round begins. Prints medians over the rounds, the operations of
 * each circuit, and how many times as long the peers take.
 *
 * <p>An operation is one addition or multiplication of two numbers in the circuit before anything
 * is fused; the downward pass is not counted, though the time per operation includes it.
 */
public final class Compare {

  private static final List<String> NETWORKS =
      List.of("asia", "alarm", "hepar2", "charging", "power");

  /** By benchmark, then by network: microseconds, one for each round. */
  private final Map<String, Map<String, List<Double>>> micros = new TreeMap<>();

  private Compare() {}

  /** Runs as many rounds as the first argument says, 5 if there is none, on the networks named. */
  public static void main(String[] args) throws Exception {
    int rounds = args.length > 0 ? Integer.parseInt(args[0]) : 5;
    List<String> networks = new ArrayList<>();
    List<String> named = args.length > 1 ? List.of(args).subList(1, args.length) : NETWORKS;
    for (String name : named) {
      if (Asked.of(name).isPresent()) {
        networks.add(name);
      } else {
        System.out.println("left out, since its file does not lie beside the project: " + name);
      }
    }
    Compare compare = new Compare();
    for (int round = 0; round < rounds; round++) {
      compare.round(networks);
      System.out.println("round " + (round + 1) + " of " + rounds + " done");
    }
    compare.print(networks);
  }

  private void round(List<String> networks) throws Exception {
    collect(
        new Runner(
                new OptionsBuilder()
                    .include("NetworkBenchmark|NoisyOrBenchmark")
                    .param("name", networks.toArray(String[]::new))
                    .forks(1)
                    .warmupIterations(3)
                    .warmupTime(TimeValue.milliseconds(400))
                    .measurementIterations(3)
                    .measurementTime(TimeValue.milliseconds(400))
                    .shouldFailOnError(true)
                    .verbosity(VerboseMode.SILENT)
                    .build())
            .run());
  }

  private void collect(Collection<RunResult> results) {
    for (RunResult r : results) {
      String benchmark = r.getParams().getBenchmark();
      String name = r.getParams().getParam("name");
      micros
          .computeIfAbsent(
              benchmark.substring(benchmark.lastIndexOf('.', benchmark.lastIndexOf('.') - 1) + 1),
              k -> new TreeMap<>())
          .computeIfAbsent(name == null ? "" : name, k -> new ArrayList<>())
          .add(r.getPrimaryResult().getScore());
    }
  }

  private double median(String benchmark, String network) {
    double[] all =
        micros.get(benchmark).get(network).stream().mapToDouble(Double::doubleValue).toArray();
    Arrays.sort(all);
    return (all[all.length / 2] + all[(all.length - 1) / 2]) / 2;
  }

  private double of(String method, String network) {
    return median("NetworkBenchmark." + method, network);
  }

  private void print(List<String> networks) throws Exception {
    line("network", "operations", "compile ms", "both µs", "ns/op", "upward µs", "both/upward");
    for (String n : networks) {
      int operations = new Ours(Asked.of(n).orElseThrow().network(), Map.of()).operations();
      double both = of("bothPasses", n);
      double up = of("upwardOnly", n);
      line(
          n,
          String.valueOf(operations),
          number(of("compile", n) / 1e3),
          number(both),
          number(both * 1e3 / operations),
          number(up),
          number(both / up));
    }
    line("network", "one change µs", "lanes both µs", "gain", "lanes up µs", "gain", "");
    for (String n : networks) {
      line(
          n,
          number(of("upwardAfterOneChange", n)),
          number(of("lanesBothPasses", n)),
          number(of("bothPasses", n) / of("lanesBothPasses", n)),
          number(of("lanesUpwardOnly", n)),
          number(of("upwardOnly", n) / of("lanesUpwardOnly", n)),
          "");
    }
    line("network", "weka µs", "times ours", "tetrad µs", "times ours", "", "");
    for (String n : networks) {
      double both = of("bothPasses", n);
      line(
          n,
          number(of("weka", n)),
          number(of("weka", n) / both),
          number(of("tetrad", n)),
          number(of("tetrad", n) / both),
          "",
          "");
    }
    double weka = median("NoisyOrBenchmark.weka", "");
    line("noisy-or 100x200", "µs", "weka/it", "", "", "", "");
    for (String m : List.of("twoLevel", "perCase", "weka")) {
      double time = median("NoisyOrBenchmark." + m, "");
      line(m, number(time), number(weka / time), "", "", "", "");
    }
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, value < 100 ? "%.2f" : "%,.0f", value);
  }

  private static void line(String... cells) {
    StringBuilder text = new StringBuilder();
    for (String c : cells) {
      text.append(String.format("%-18s", c));
    }
    System.out.println(text.toString().stripTrailing());
  }
}
