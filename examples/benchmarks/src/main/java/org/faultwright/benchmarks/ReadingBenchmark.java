package org.faultwright.benchmarks;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.PinTable;
import org.faultwright.casefile.PinTableReader;
import org.faultwright.casefile.PinTableReading;
import org.faultwright.casefile.Told;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.diagnosis.PinReport;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.measurement.table.TextTable;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
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
 * Readings: the likelihood of one, and a table of forty pins (31 of them read, all a little low
 * alike) from its text to posterior and advice. To be run from the top of the repository, where the
 * example tables are.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@State(Scope.Thread)
public class ReadingBenchmark {

  private static final Path FOLDER = Path.of("examples", "pins");
  private static final StepId STEP = new StepId("display-pin-table");

  private ReadingModel model;
  private List<ReadingValue> reading;
  private Pack pack;
  private Engine engine;
  private CompiledPack compiled;
  private byte[] text;
  private List<Told> facts;

  /** Reads the example pack and table. */
  @Setup
  public void read() throws IOException {
    model =
        ReadingModel.of(
            new Reference.Around(Dimension.VOLTAGE, 0.62, 0.05),
            List.of(
                new ReadingModel.StateRange("open", Optional.empty()),
                new ReadingModel.StateRange("short", Optional.empty()),
                new ReadingModel.StateRange("low", Optional.empty()),
                new ReadingModel.StateRange("high", Optional.empty())));
    reading = List.of(ReadingValue.parse("0.57 V", Dimension.VOLTAGE));
    PackReading found = new PackReader().read(FOLDER.resolve("redpoll-display.yaml"));
    if (!(found instanceof PackReading.Readable readable)) {
      throw new IllegalStateException("run it from the top of the repository: " + found.report());
    }
    pack = readable.pack();
    engine = Engine.create();
    compiled = (CompiledPack) engine.compile(pack);
    text = Files.readAllBytes(FOLDER.resolve("warm-board.csv"));
    facts = new ArrayList<>();
    tell(new Fact.Complained(new ComplaintId("no-picture"), true));
    table().facts(Fact.Setup.AS_STATED).forEach(this::tell);
  }

  private void tell(Fact fact) {
    facts.add(new Told(new FactId(facts.size() + 1), Optional.empty(), fact));
  }

  private PinTable table() {
    PinTableReading read =
        new PinTableReader(pack, STEP, Optional.empty())
            .read(TextTable.read("warm-board.csv", text), Optional.empty());
    return ((PinTableReading.Readable) read).table();
  }

  /** P(reading | state) for five states. */
  @Benchmark
  public double[] likelihoodOfAReading() {
    return model.likelihood(reading, 0.005, 0.0003);
  }

  /** A table of text to readings, looked at from both ends. */
  @Benchmark
  public PinTable tableFromText() {
    return table();
  }

  /** The posterior of all causes, the shared error summed over. */
  @Benchmark
  public BeliefResult tableToPosterior() {
    return compiled.belief(facts);
  }

  /** A case is opened, told the table, and shown as a table; nothing is weighed. */
  @Benchmark
  public PinReport tableToReport() {
    try (Diagnosis diagnosis = engine.open(pack, Intake.PLAIN)) {
      facts.forEach(t -> diagnosis.tell(t.fact()));
      return diagnosis.pins(STEP);
    }
  }

  /** The same up to the advice. */
  @Benchmark
  public Answer tableToAdvice() {
    try (Diagnosis diagnosis = engine.open(pack, Intake.PLAIN)) {
      facts.forEach(t -> diagnosis.tell(t.fact()));
      return diagnosis.answer();
    }
  }
}
