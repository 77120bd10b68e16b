package org.faultwright.benchmarks;

import java.util.concurrent.TimeUnit;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
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

/** What a host program waits for: a pack made ready, a case opened, a fact answered. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class DiagnosisBenchmark {

  private Pack pack;
  private Engine engine;
  private CaseFile caseFile;
  private Told last;
  private Diagnosis open;

  /** Opens the case without its last fact and has it answered once. */
  @Setup
  public void open() {
    pack = WrenPacks.pack();
    engine = Engine.create();
    caseFile = WrenPacks.caseFile(pack);
    last = WrenPacks.last(caseFile);
    open = engine.resume(pack, caseFile.without(last.id()));
    if (open.answer().posterior().isEmpty() || open.answer().isEnd()) {
      throw new IllegalStateException("case must be one that is still to be weighed");
    }
  }

  /** Puts the case away. */
  @TearDown
  public void close() {
    open.close();
  }

  /**
   * An open diagnosis is told an outcome and asked for its answer, then the outcome is withdrawn
   * and the answer asked for again: two steps from fact to advice. Without the second question the
   * next round would find the rules' memory as it left it.
   */
  @Benchmark
  @OperationsPerInvocation(2)
  public void factToAdvice(Blackhole hole) {
    FactId told = open.tell(last.fact());
    hole.consume(open.answer());
    open.withdraw(told);
    hole.consume(open.answer());
  }

  /** A case is opened on a pack that is ready, answered for the first time, and closed. */
  @Benchmark
  public Answer openToFirstAnswer() {
    try (Diagnosis diagnosis = engine.resume(pack, caseFile)) {
      return diagnosis.answer();
    }
  }

  /** A pack that has been read is compiled, up to the circuit of a device as taken in. */
  @Benchmark
  public int compilePack() {
    CompiledPack compiled = WrenPacks.compiled(pack);
    return compiled.operations();
  }
}
