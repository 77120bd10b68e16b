package org.faultwright.benchmarks;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.faultwright.measurement.knowngood.BoardReadings;
import org.faultwright.measurement.knowngood.BoardTables;
import org.faultwright.measurement.knowngood.KnownGood;
import org.faultwright.measurement.knowngood.PinReadings;
import org.faultwright.measurement.knowngood.PinReference;
import org.faultwright.measurement.knowngood.ReferencePolicy;
import org.faultwright.measurement.table.TableReading;
import org.faultwright.measurement.table.TextTable;
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

/** References of 60 pins from 30 known-good boards, drawn at random and always the same. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class KnownGoodBenchmark {

  private static final int PINS = 60;
  private static final int BOARDS = 30;

  private byte[] text;
  private List<PinReadings> pins;

  /** Draws the readings. */
  @Setup
  public void draw() {
    Random chance = new Random(5);
    StringBuilder table = new StringBuilder("pin");
    for (int board = 1; board <= BOARDS; board++) {
      table.append(",b").append(board);
    }
    for (int pin = 1; pin <= PINS; pin++) {
      table.append('\n').append(pin);
      double typical = 0.3 + 0.4 * chance.nextDouble();
      for (int board = 1; board <= BOARDS; board++) {
        double volts = typical + 0.004 * chance.nextGaussian();
        table.append(String.format(Locale.ROOT, ",%.3f V", volts));
      }
    }
    text = table.toString().getBytes(UTF_8);
    pins = read();
    if (pins.size() != PINS || pins.get(0).readings().size() != BOARDS) {
      throw new IllegalStateException("the table must have " + PINS + " pins: " + pins.size());
    }
  }

  /** From the bytes of the table to the readings. */
  @Benchmark
  public List<PinReadings> read() {
    TextTable table = ((TableReading.Readable) TextTable.read("boards", text)).table();
    return ((BoardReadings.Readable) BoardTables.read(List.of(table), Optional.empty())).pins();
  }

  /** From the readings to the references, with the tolerance factor worked out anew. */
  @Benchmark
  public List<PinReference> references() {
    return new KnownGood(ReferencePolicy.USUAL).references(pins);
  }
}
