package org.faultwright.benchmarks;

import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.faultwright.pack.CauseId;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import weka.classifiers.bayes.net.MarginCalculator;

/**
 * The posterior of all causes given the same facts, here and in the peer. Both have their structure
 * built beforehand; what is measured is entering the facts and reading the margins.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class PosteriorBenchmark {

  /** The question, built for both; refuses to be measured unless both give the same answer. */
  @State(Scope.Thread)
  public static class Both {

    Question question;

    /** Builds both and compares their answers. */
    @Setup
    public void build() throws Exception {
      question = new Question();
      double apart = Question.furthestApart(question.ours(), question.peers(question.copy()));
      if (!(apart <= Agreement.SAME)) {
        throw new IllegalStateException("both must give the same posterior: " + apart + " apart");
      }
    }
  }

  /** A junction tree without evidence; copying it is not measured. */
  @State(Scope.Thread)
  public static class Untouched {

    MarginCalculator copy;

    /** Copies the tree, because evidence cannot be taken back. */
    @Setup(Level.Invocation)
    public void copy(Both both) {
      copy = both.question.copy();
    }
  }

  /** By the circuit. */
  @Benchmark
  public Map<CauseId, Double> circuit(Both both) {
    return both.question.ours();
  }

  /** By the peer's junction tree. */
  @Benchmark
  public Map<CauseId, Double> peer(Both both, Untouched untouched) throws Exception {
    return both.question.peers(untouched.copy);
  }
}
