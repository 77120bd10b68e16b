package org.faultwright.pack.reader;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.Accuracy;
import org.faultwright.measurement.Meter;
import org.faultwright.measurement.Quantity;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Instrument;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.format.BasisForm;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Numbers;
import org.faultwright.pack.format.Quantities;

/** The section {@code instruments}. */
final class Instruments {

  private static final Key<String> TITLE = Key.optional("title", Forms.TEXT, "what it is");
  private static final Key<Double> OF_READING =
      Key.optional(
          "of-reading",
          Chances.chance(0, 1).as(Chance::p),
          "largest error as a part of the reading, such as 0.5 %");
  private static final Key<Integer> COUNTS =
      Key.optional("counts", Numbers.COUNT, "largest error on top of it, in counts of the display");
  private static final Key<Quantity> COUNT =
      Key.optional("count", Quantities.ANY, "the value of one count, such as 0.001 V");
  private static final Key<Accuracy> ACCURACY =
      Key.optional(
          "accuracy",
          Forms.built(
              Block.of("accuracy", OF_READING, COUNTS, COUNT).atLeastOneOf(OF_READING, COUNT),
              Instruments::accuracy),
          "how far its readings may be off");

  private static final Key<Boolean> READS =
      Key.optional(
          "reads",
          Forms.word(Map.entry("diode-drop", true), Map.entry("plain", false)),
          "diode-drop: the drop in diode mode, where 452 means 0.452 V; else plain");
  private static final Key<Quantity> TEST_CURRENT =
      Key.optional("test-current", Quantities.ANY, "what it drives through what it measures");
  private static final Key<Quantity> INPUT_RESISTANCE =
      Key.optional("input-resistance", Quantities.ANY, "how it loads a voltage, such as 10 Mohm");
  private static final Key<Quantity> LEAD_RESISTANCE =
      Key.optional(
          "lead-resistance", Quantities.ANY, "what its leads add, unless they are subtracted");
  private static final Key<Quantity> SHOWS_UP_TO =
      Key.optional("shows-up-to", Quantities.ANY, "the largest value it shows; beyond is OL");
  private static final Key<Quantity> UP_TO =
      Key.required("up-to", Quantities.ANY, "the largest value of the range");

  private record RangeRead(Quantity upTo, Accuracy accuracy) {
    Meter.Range range() {
      return new Meter.Range(upTo.si(), accuracy);
    }
  }

  private static final Key<List<RangeRead>> RANGES =
      Key.optional(
          "ranges",
          Forms.list(
              Forms.built(
                  Block.of("range", UP_TO, OF_READING, COUNTS, COUNT)
                      .atLeastOneOf(OF_READING, COUNT),
                  f ->
                      f.complete()
                          ? accuracy(f).map(a -> new RangeRead(f.need(UP_TO), a))
                          : Optional.empty())),
          "its ranges, the smallest first, each with its own accuracy");

  static final Form<List<Instrument>> FORM =
      Section.of(
          Kind.INSTRUMENT,
          Block.of(
                  "an-instrument",
                  TITLE,
                  ACCURACY,
                  READS,
                  TEST_CURRENT,
                  INPUT_RESISTANCE,
                  LEAD_RESISTANCE,
                  SHOWS_UP_TO,
                  RANGES)
              .withBasis(),
          Instruments::instrument);

  private Instruments() {}

  private static Optional<Instrument> instrument(String id, Fields f) {
    Optional<Meter> meter = meter(f);
    Basis basis =
        f.get(ACCURACY).isPresent()
            ? BasisForm.needed(f.scope().at(ACCURACY.name()), f.at(ACCURACY))
            : f.scope().basis().orElse(new Basis.ByDefinition());
    return meter.map(
        m ->
            new Instrument(
                new InstrumentId(id),
                f.get(TITLE).orElse(Section.words(id)),
                f.get(ACCURACY),
                m,
                basis));
  }

  private static Optional<Meter> meter(Fields f) {
    try {
      return Optional.of(
          new Meter(
              f.get(READS).orElse(false),
              si(f.get(TEST_CURRENT)),
              si(f.get(INPUT_RESISTANCE)),
              si(f.get(LEAD_RESISTANCE)),
              f.get(SHOWS_UP_TO).or(() -> endOfRanges(f)),
              f.get(RANGES).orElse(List.of()).stream().map(RangeRead::range).toList()));
    } catch (IllegalArgumentException e) {
      f.scope()
          .error(
              FormatRule.BAD_LIMITS,
              f.at(),
              f.scope().owner()
                  + ": "
                  + e.getMessage().replaceAll("^[a-zA-Z]+ must", "a value must"),
              "look at its values above 0, and let its ranges ascend");
      return Optional.empty();
    }
  }

  /** Where it states no accuracy beyond its ranges, it shows nothing beyond them. */
  private static Optional<Quantity> endOfRanges(Fields f) {
    List<RangeRead> ranges = f.get(RANGES).orElse(List.of());
    return f.wrote(ACCURACY) || ranges.isEmpty()
        ? Optional.empty()
        : Optional.of(ranges.get(ranges.size() - 1).upTo());
  }

  private static OptionalDouble si(Optional<Quantity> q) {
    return q.map(x -> OptionalDouble.of(x.si())).orElse(OptionalDouble.empty());
  }

  private static Optional<Accuracy> accuracy(Fields f) {
    if (!f.complete() || f.spoilt(OF_READING) || f.spoilt(COUNTS) || f.spoilt(COUNT)) {
      return Optional.empty();
    }
    double count = f.get(COUNT).map(Quantity::si).orElse(0.0);
    return Optional.of(
        new Accuracy(
            f.get(OF_READING).orElse(0.0), f.get(COUNTS).orElse(0) * count, Math.abs(count)));
  }
}
