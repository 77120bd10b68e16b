package org.faultwright.benchmarks;

import java.util.concurrent.TimeUnit;
import org.faultwright.casefile.CaseFile;
import org.faultwright.pack.Pack;
import org.faultwright.rules.RuleBase;
import org.faultwright.rules.Summary;
import org.faultwright.rules.WorkingMemory;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/** The share of the rules in a step from fact to advice. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class RulesBenchmark {

  private CaseFile with;
  private CaseFile without;
  private WorkingMemory memory;

  /** Opens a working memory. */
  @Setup
  public void open() {
    Pack pack = WrenPacks.pack();
    with = WrenPacks.caseFile(pack);
    without = with.without(WrenPacks.last(with).id());
    memory = RuleBase.shared().open(pack, with.intake());
  }

  /** Lets the working memory go. */
  @TearDown
  public void close() {
    memory.close();
  }

  /** Both firings with one fact more and with one fact less, with nothing weighed in between. */
  @Benchmark
  @OperationsPerInvocation(2)
  public void concludeAndAdvise(Blackhole hole) {
    hole.consume(memory.conclude(with.facts()));
    hole.consume(memory.advise(Summary.NOTHING));
    hole.consume(memory.conclude(without.facts()));
    hole.consume(memory.advise(Summary.NOTHING));
  }
}
