package org.faultwright.benchmarks;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A network too wide to be compiled as a whole, for one case: a hundred causes, two hundred
 * findings, five positive and fifteen negative. Pruning, compiling and evaluating are measured
 * together, as nothing of it can be kept for the next case.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 4, time = 1)
public class NoisyOrBenchmark {

  private TwoLevel network;

  /** Reads the network; refuses to be measured unless all give the same posteriors. */
  @Setup
  public void build() throws Exception {
    network = new TwoLevel();
    double[][] ours = {network.direct(), network.ours()};
    double[][] peers = {network.peers(), network.peers()};
    double apart = Agreement.furthestApart(ours, peers);
    if (!(apart <= Agreement.SAME)) {
      throw new IllegalStateException("all must give the same posteriors: " + apart + " apart");
    }
  }

  /** By summing over which findings are explained. */
  @Benchmark
  public double[] twoLevel() {
    return network.direct();
  }

  /** By a circuit of what the evidence leaves of the model. */
  @Benchmark
  public double[] perCase() {
    return network.ours();
  }

  /** By the peer, built anew on the pruned network. */
  @Benchmark
  public double[] weka() throws Exception {
    return network.peers();
  }
}
