package org.faultwright.casefile;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;

/**
 * Whether a pin table was noted the other way round: how well its readings fit the pins as noted,
 * and how well in each {@link PinTable.Way}.
 */
final class TurnedTable {

  /** Fewer readings could fit by chance. */
  private static final int FEWEST = 4;

  /** So many times likelier it must be to be worth a question. */
  private static final double FAR_BETTER = 1_000;

  /** P(a pin reads as its reference says), for this comparison only. */
  private static final double P_NORMAL = 0.85;

  /** What a pin that is ground reads at most, in volts or ohms: the leads. */
  private static final double NOTHING = 0.02;

  /** A reading at a numbered pin. */
  record Noted(int pin, ReadingValue value) {}

  private final Pack pack;
  private final Step step;
  private final Step.PinTable table;
  private final PinNames names;
  private final Map<PointId, ReadingModel> models = new HashMap<>();

  TurnedTable(Pack pack, Step step, PinNames names) {
    this.pack = pack;
    this.step = step;
    this.table = step.pinTable().orElseThrow();
    this.names = names;
  }

  /** The way that fits far better than the table as noted, where there is one. */
  Optional<PinTable.Turned> better(List<Noted> notes) {
    int pins = names.count();
    if (notes.size() < FEWEST || pins < FEWEST) {
      return Optional.empty();
    }
    double asNoted = notes.stream().mapToDouble(n -> logFit(n.pin(), n.value())).sum();
    return Stream.of(PinTable.Way.values())
        .filter(way -> way == PinTable.Way.FROM_THE_OTHER_END || pins % 2 == 0)
        .map(
            way ->
                new PinTable.Turned(
                    way,
                    Math.exp(
                        notes.stream()
                                .mapToDouble(n -> logFit(way.pin(n.pin(), pins), n.value()))
                                .sum()
                            - asNoted)))
        .filter(t -> t.timesBetter() >= FAR_BETTER)
        .max(Comparator.comparingDouble(PinTable.Turned::timesBetter));
  }

  /** ln of how likely a reading is at a pin, whatever its state. */
  private double logFit(int pin, ReadingValue value) {
    Optional<PinNames.Pin> known = names.numbered(pin);
    if (known.isPresent() && known.get() instanceof PinNames.Pin.Reads reads) {
      return Math.log(fit(reads.point(), value));
    }
    if (known.isPresent()) {
      boolean ground = ((PinNames.Pin.Idle) known.get()).ground();
      Reference reference =
          ground
              ? new Reference.Within(
                  kind(table), OptionalDouble.of(-NOTHING), OptionalDouble.of(NOTHING))
              : new Reference.OverRange(kind(table));
      return Math.log(ReadingModel.of(reference, List.of()).likelihood(List.of(value), 0, 0)[0]);
    }
    // nothing is known of this pin: it may be like any other
    return Math.log(
        table.points().stream().mapToDouble(p -> fit(p, value)).average().orElseThrow());
  }

  private double fit(Point point, ReadingValue value) {
    if (point.reference().dimension() != value.kind()) {
      return 1;
    }
    ReadingModel model = models.computeIfAbsent(point.id(), id -> point.readingModel());
    double u = ReadingUncertainty.expected(pack, step, point).combined();
    double[] likelihood = model.likelihood(List.of(value), 0, u);
    double fit = P_NORMAL * likelihood[0];
    for (int s = 1; s < likelihood.length; s++) {
      fit += (1 - P_NORMAL) * likelihood[s] / (likelihood.length - 1);
    }
    return fit;
  }

  /** The kind of quantity that is read at the pins. */
  static Dimension kind(Step.PinTable table) {
    return table.points().get(0).reference().dimension();
  }

  /** What a ground pin reads. */
  static ReadingValue nothing(Step.PinTable table) {
    return new ReadingValue.Measured(new Quantity(0, kind(table)));
  }

  /** Whether a value is as good as nothing. */
  static boolean isNothing(ReadingValue value) {
    return value instanceof ReadingValue.Measured m && Math.abs(m.quantity().si()) <= NOTHING;
  }
}
