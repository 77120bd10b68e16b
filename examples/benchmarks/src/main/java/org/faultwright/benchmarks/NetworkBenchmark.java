package org.faultwright.benchmarks;

import java.util.concurrent.TimeUnit;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.Lanes;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Every posterior of a network given the same five findings (a pack: the facts of its case), here
 * and in both peers. All have their structure built beforehand; entering the evidence and reading
 * all posteriors is measured. Nothing is measured unless all give the same posteriors.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 4, time = 1)
public class NetworkBenchmark {

  private static final int LANES = 16;

  /** The network and who is asked. */
  @State(Scope.Thread)
  public static class Network {

    /** Which network. */
    @Param({"asia", "alarm", "hepar2", "charging", "power"})
    public String name = "asia";

    Asked asked;
    Ours ours;
    Lanes lanes;
    final double[] row = new double[LANES];

    /** Builds the circuit. */
    @Setup
    public void build() throws Exception {
      asked =
          Asked.of(name)
              .orElseThrow(
                  () -> new IllegalStateException("no network beside the project: " + name));
      ours = new Ours(asked.network(), asked.likelihoods());
      lanes = ours.lanes(LANES);
    }
  }

  /** The one peer, its evidence taken back before each question. */
  @State(Scope.Thread)
  public static class ByPeer {

    Contender peer;

    /** Builds it. */
    @Setup
    public void build(Network network) throws Exception {
      peer =
          Agreement.checked(
              new Peer(network.asked.network(), network.asked.likelihoods()), network.ours);
    }

    /** Takes the evidence back. */
    @Setup(Level.Invocation)
    public void reset() throws Exception {
      peer.reset();
    }
  }

  /** The other peer, its evidence taken back before each question. */
  @State(Scope.Thread)
  public static class BySecondPeer {

    Contender peer;

    /** Builds it. */
    @Setup
    public void build(Network network) throws Exception {
      peer =
          Agreement.checked(
              new SecondPeer(network.asked.network(), network.asked.likelihoods()), network.ours);
    }

    /** Takes the evidence back. */
    @Setup(Level.Invocation)
    public void reset() throws Exception {
      peer.reset();
    }
  }

  /** Both passes. */
  @Benchmark
  public double[][] bothPasses(Network network) {
    return network.ours.answer();
  }

  /** P(evidence) alone. */
  @Benchmark
  public double upwardOnly(Network network) {
    return network.ours.logPEvidence();
  }

  /** P(evidence) after one finding has changed. */
  @Benchmark
  public double upwardAfterOneChange(Network network) {
    return network.ours.logPEvidenceAfterOneChange();
  }

  /** Both passes, for each of several sets of evidence at once. */
  @Benchmark
  @OperationsPerInvocation(LANES)
  public double lanesBothPasses(Network network) {
    Lanes lanes = network.lanes;
    network.ours.enter(lanes);
    lanes.upward();
    lanes.downward();
    double[] row = network.row;
    double sum = 0;
    for (int v = 0; v < network.ours.nodes(); v++) {
      for (int s = 0; s < network.ours.states(v); s++) {
        lanes.marginals(v, s, row);
        sum += row[0];
      }
    }
    return sum;
  }

  /** P(evidence) alone, for each of several sets of evidence at once. */
  @Benchmark
  @OperationsPerInvocation(LANES)
  public double lanesUpwardOnly(Network network) {
    network.ours.enter(network.lanes);
    network.lanes.upward();
    double sum = 0;
    for (int lane = 0; lane < LANES; lane++) {
      sum += network.lanes.logPEvidence(lane);
    }
    return sum;
  }

  /** From tables to the first posterior. */
  @Benchmark
  public Circuit compile(Network network) {
    return Ours.compile(network.asked.network());
  }

  /** By the one peer's junction tree. */
  @Benchmark
  public double[][] weka(ByPeer by) throws Exception {
    return by.peer.answer();
  }

  /** By the other peer's junction tree. */
  @Benchmark
  public double[][] tetrad(BySecondPeer by) throws Exception {
    return by.peer.answer();
  }
}
