package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;
import org.assertj.core.data.Offset;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;

/** What must not change what a table of pins says, and what no number of readings can lessen. */
class PinTableProperty {

  private static final int PINS = 6;

  /** Sums of a few hundred products of doubles. */
  private static final Offset<Double> ROUNDING = within(1e-12);

  /**
   * Six pins, each with a fault of its own that lowers it, and one pin that nothing touches.
   *
   * @param order of the six in the pack
   * @param accuracy of the meter
   */
  private static CompiledPack pack(List<Integer> order, String accuracy) {
    StringBuilder causes = new StringBuilder();
    StringBuilder points = new StringBuilder("      free: {reference: 0.6 V, tolerance: 4 %}\n");
    StringBuilder faults = new StringBuilder();
    for (int i = 0; i < PINS; i++) {
      causes.append("  fault-%d: {prior: %d %%}\n".formatted(i, 2 + i));
      faults.append("fault-%d, ".formatted(i));
      points.append(
          "      pin-%d: {reference: 0.6 V, tolerance: 4 %%, low: [fault-%d], high: [fault-%d]}\n"
              .formatted(order.get(i), order.get(i), (order.get(i) + 1) % PINS));
    }
    String text =
        "pack: plover-player/table\n"
            + "version: 1.0.0\n"
            + "format: 1\n"
            + "title: Table (invented)\n"
            + "basis: invented\n"
            + "instruments: {meter: {accuracy: {"
            + accuracy
            + "}}}\ncomplaints: {silent: {event: lost}}\ncauses:\n  unlisted: {prior: 1 %}\n"
            + causes
            + "events: {lost: {any: ["
            + faults
            + "unlisted]}}\n"
            + "steps:\n"
            + "  plays: {minutes: 1, proves: {complaint: silent, catches: 99 %, cries-wolf: 1 %}}\n"
            + "  table:\n"
            + "    minutes: 5\n"
            + "    instrument: meter\n"
            + "    points:\n"
            + points;
    PackReading read = new PackReader().read(YamlText.of("pack.yaml", text));
    assertThat(read).as(read.report()).isInstanceOf(PackReading.Readable.class);
    Pack pack = ((PackReading.Readable) read).pack();
    return (CompiledPack) CompiledPack.compile(pack);
  }

  private static final List<Integer> IN_ORDER = List.of(0, 1, 2, 3, 4, 5);
  private static final String ITS_OWN_ERROR = "of-reading: 3 %, counts: 0, count: 0.001 V";
  private static final CompiledPack EXACT = pack(IN_ORDER, "counts: 0, count: 0.001 V");
  private static final CompiledPack OFF = pack(IN_ORDER, ITS_OWN_ERROR);

  private static Fact reads(String point, double volts) {
    return new Fact.ReadingTaken(
        new PointId(point),
        new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE)),
        OptionalDouble.empty(),
        Fact.Setup.AS_STATED);
  }

  private static List<Fact> table(List<Double> volts) {
    List<Fact> facts = new ArrayList<>();
    for (int i = 0; i < volts.size(); i++) {
      facts.add(reads("pin-" + i, volts.get(i)));
    }
    return facts;
  }

  private static Map<String, Double> posterior(CompiledPack compiled, List<Fact> facts) {
    List<Told> told = new ArrayList<>();
    for (Fact fact : facts) {
      told.add(new Told(new FactId(told.size() + 1), Optional.empty(), fact));
    }
    Map<String, Double> all = new TreeMap<>();
    ((Belief) compiled.belief(told)).causes().forEach((c, p) -> all.put(c.value(), p));
    return all;
  }

  private static void assertSame(Map<String, Double> found, Map<String, Double> expected) {
    assertThat(found.keySet()).isEqualTo(expected.keySet());
    expected.forEach((cause, p) -> assertThat(found.get(cause)).as(cause).isCloseTo(p, ROUNDING));
  }

  @Property(tries = 200)
  void pinThatNoCauseTouches_saysNothing_withoutASharedError(
      @ForAll @Size(value = PINS) List<@DoubleRange(min = 0.3, max = 0.9) Double> volts,
      @ForAll @DoubleRange(min = 0, max = 2) double free) {
    List<Fact> with = table(volts);
    with.add(reads("free", free));
    assertSame(posterior(EXACT, with), posterior(EXACT, table(volts)));
  }

  /** With one it speaks of the meter, so that the property above can fail. */
  @Property(tries = 20)
  void pinThatNoCauseTouches_speaksOfTheMeter_withASharedError(
      @ForAll @DoubleRange(min = 0.55, max = 0.57) double low) {
    List<Fact> one = new ArrayList<>(List.of(reads("pin-0", low)));
    double alone = posterior(OFF, one).get("fault-0");
    one.add(reads("free", low));
    assertThat(posterior(OFF, one).get("fault-0")).isLessThan(alone - 1e-6);
  }

  @Property(tries = 100)
  void orderOfPins_inTableAndPack_changesNothing(
      @ForAll @Size(value = PINS) List<@DoubleRange(min = 0.3, max = 0.9) Double> volts,
      @ForAll long seed) {
    List<Fact> shuffled = table(volts);
    Collections.shuffle(shuffled, new Random(seed));
    List<Integer> order = new ArrayList<>(IN_ORDER);
    Collections.shuffle(order, new Random(seed + 1));
    Map<String, Double> expected = posterior(OFF, table(volts));
    assertSame(posterior(OFF, shuffled), expected);
    assertSame(posterior(pack(order, ITS_OWN_ERROR), table(volts)), expected);
  }

  /**
   * However often a pin is read with one meter, each time alike, it says no more than one reading
   * without noise: the meter's own error stays.
   */
  @Property(tries = 60)
  void repeats_neverGoPastTheSharedError(
      @ForAll @DoubleRange(min = 0.4, max = 0.62) double volts,
      @ForAll @DoubleRange(min = 0.01, max = 0.1) double noise) {
    double floor = repeated(volts, 0, 1);
    for (int n = 1; n <= 512; n *= 8) {
      double asOne = repeated(volts, noise / Math.sqrt(n), 1);
      assertThat(repeated(volts, noise, n)).isCloseTo(asOne, ROUNDING);
    }
    assertThat(repeated(volts, noise / 1e6, 1)).isCloseTo(floor, within(1e-6));
    // nor is the floor certain of what lies within the meter's error of the limit
    if (Math.abs(volts - 0.576) < 0.005) {
      assertThat(floor).isBetween(0.001, 0.999);
    }
  }

  private static double repeated(double volts, double noise, int times) {
    List<Fact> facts = new ArrayList<>();
    for (int i = 0; i < times; i++) {
      facts.add(
          new Fact.ReadingTaken(
              new PointId("pin-0"),
              new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE)),
              OptionalDouble.of(noise),
              Fact.Setup.AS_STATED));
    }
    return posterior(OFF, facts).get(new CauseId("fault-0").value());
  }
}
