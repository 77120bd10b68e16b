package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import net.jqwik.api.constraints.Size;
import org.faultwright.measurement.Reference.Around;
import org.faultwright.measurement.Reference.Within;

class ReadingModelProperty {

  private static final Dimension V = Dimension.VOLTAGE;
  private static final double ROUNDING = 1e-9;

  @Provide
  Arbitrary<Reference> references() {
    Arbitrary<Double> value = Arbitraries.doubles().between(0.05, 50);
    Arbitrary<Double> part = Arbitraries.doubles().between(0.01, 0.6);
    Arbitrary<Reference> around =
        Combinators.combine(value, part).as((v, p) -> new Around(V, v, v * p));
    Arbitrary<Reference> within =
        Combinators.combine(value, part)
            .as((v, p) -> new Within(V, OptionalDouble.of(v), OptionalDouble.of(v * (1 + p))));
    Arbitrary<Reference> atMost =
        value.map(v -> new Within(V, OptionalDouble.empty(), OptionalDouble.of(v)));
    Arbitrary<Reference> atLeast =
        value.map(v -> new Within(V, OptionalDouble.of(v), OptionalDouble.empty()));
    Arbitrary<Reference> over = Arbitraries.just(new Reference.OverRange(V));
    // Small ones: what is high beside a wide reference would reach far beyond the 100 kV that a
    // quantity may have, and not be summed up.
    Arbitrary<Reference> byFactor =
        Combinators.combine(value, Arbitraries.doubles().between(1.2, 30))
            .as((v, f) -> Within.ofFactor(V, v / 100, f));
    return Arbitraries.oneOf(around, within, atMost, atLeast, over, byFactor);
  }

  /** A model with all states that the reference allows. */
  private static ReadingModel model(Reference normal) {
    List<ReadingModel.StateRange> states = new ArrayList<>();
    for (String name : List.of("open", "short", "low", "high")) {
      if (ReadingModel.knowsRange(name, normal)) {
        states.add(new ReadingModel.StateRange(name, Optional.empty()));
      }
    }
    return ReadingModel.of(normal, states);
  }

  private static ReadingValue volts(double v) {
    return new ReadingValue.Measured(new Quantity(v, V));
  }

  private static double size(Reference r) {
    if (r instanceof Around a) {
      return a.nominal();
    } else if (r instanceof Within w) {
      return Math.max(w.low().orElse(0), w.high().orElse(0));
    }
    return 1;
  }

  /** Midpoint rule in a variable that stretches the whole line: v = size * sinh(t). */
  @Property(tries = 60, edgeCases = EdgeCasesMode.NONE)
  void densities_integrateToOne(
      @ForAll("references") Reference normal,
      @ForAll @Scale(4) @DoubleRange(min = 0.002, max = 0.2) double u) {
    ReadingModel model = model(normal);
    double size = size(normal);
    double[] sum = model.likelihood(List.of(new ReadingValue.OverRange(V)), 0, 0);
    int cells = 20_000;
    double reach = Math.log(2 * 99_000 / size);
    for (int i = 0; i < cells; i++) {
      double t = reach * (2 * (i + 0.5) / cells - 1);
      double[] density = model.likelihood(List.of(volts(size * Math.sinh(t))), 0, u * size);
      double width = size * Math.cosh(t) * 2 * reach / cells;
      for (int s = 0; s < sum.length; s++) {
        sum[s] += density[s] * width;
      }
    }
    for (double total : sum) {
      // What lies beyond 99 kV: the tails of the floor, and of states without an upper end.
      assertThat(total).isCloseTo(1, within(0.003));
    }
  }

  /** The bound by which offsets are left out: none on its side is likelier, in any state. */
  @Property(tries = 200)
  void mostFrom_boundsAllOffsetsFromThereOn(
      @ForAll("references") Reference normal,
      @ForAll @Scale(4) @DoubleRange(min = -1, max = 3) double at,
      @ForAll @Scale(4) @DoubleRange(min = -1, max = 1) double offset,
      @ForAll @Scale(4) @DoubleRange(min = 0, max = 2) double farther,
      @ForAll @Scale(4) @DoubleRange(min = 0.002, max = 0.2) double noise,
      @ForAll boolean upwards,
      @ForAll @IntRange(min = 0, max = 2) int over) {
    double size = size(normal);
    int side = upwards ? 1 : -1;
    ReadingModel model = model(normal);
    ReadingModel.Taken taken = new ReadingModel.Taken(at * size, 1, over);
    double[] most = model.mostFrom(taken, offset * size, side, noise * size);
    double[] there = model.likelihood(taken, (offset + side * farther) * size, noise * size);
    for (int s = 0; s < most.length; s++) {
      assertThat(there[s]).isLessThanOrEqualTo(most[s] * (1 + ROUNDING));
    }
  }

  /** What an instrument cannot show reads over-range: nothing gets lost, in no state. */
  @Property(tries = 40, edgeCases = EdgeCasesMode.NONE)
  void whatIsBeyondTheInstrument_readsOverRange(
      @ForAll("references") Reference normal,
      @ForAll @Scale(4) @DoubleRange(min = 0.002, max = 0.2) double u,
      @ForAll @Scale(4) @DoubleRange(min = 0.2, max = 4) double part) {
    double size = size(normal);
    double largest = part * size;
    ReadingModel model = model(normal).showingUpTo(largest, u * size);
    double[] sum = model.likelihood(List.of(new ReadingValue.OverRange(V)), 0, 0);
    int cells = 20_000;
    for (int i = 0; i < cells; i++) {
      double y = largest * (2 * (i + 0.5) / cells - 1);
      double[] density = model.likelihood(List.of(volts(y)), 0, u * size);
      for (int s = 0; s < sum.length; s++) {
        sum[s] += density[s] * 2 * largest / cells;
      }
    }
    for (double total : sum) {
      assertThat(total).isCloseTo(1, within(1e-4));
    }
    for (double[] row : model.confusion(u * size)) {
      double rowSum = 0;
      for (double p : row) {
        assertThat(p).isBetween(0.0, 1.0);
        rowSum += p;
      }
      assertThat(rowSum).isCloseTo(1, within(ROUNDING));
    }
  }

  @Property
  void confusion_rowsSumToOne(
      @ForAll("references") Reference normal, @ForAll @DoubleRange(min = 0, max = 0.2) double u) {
    for (double[] row : model(normal).confusion(u * size(normal))) {
      double sum = 0;
      for (double p : row) {
        assertThat(p).isBetween(0.0, 1.0);
        sum += p;
      }
      assertThat(sum).isCloseTo(1, within(ROUNDING));
    }
  }

  /** Oracle: the share of a fine grid of quantiles of the density that is classified so. */
  @Property(tries = 30, edgeCases = EdgeCasesMode.NONE)
  void confusion_agreesWithAPlainSumOverTheDensity(
      @ForAll("references") Reference normal,
      @ForAll @Scale(4) @DoubleRange(min = 0.005, max = 0.2) double u) {
    ReadingModel model = model(normal);
    double size = size(normal);
    double[][] expected = new double[model.states()][model.states()];
    ReadingValue over = new ReadingValue.OverRange(V);
    double[] pOver = model.likelihood(List.of(over), 0, 0);
    int cells = 50_000;
    double largestCell = 0;
    double reach = Math.log(2 * 99_000 / size);
    for (int s = 0; s < pOver.length; s++) {
      expected[s][model.classify(over, u * size)] += pOver[s];
    }
    for (int i = 0; i < cells; i++) {
      double t = reach * (2 * (i + 0.5) / cells - 1);
      ReadingValue y = volts(size * Math.sinh(t));
      double width = size * Math.cosh(t) * 2 * reach / cells;
      double[] density = model.likelihood(List.of(y), 0, u * size);
      int column = model.classify(y, u * size);
      for (int s = 0; s < density.length; s++) {
        expected[s][column] += density[s] * width;
        largestCell = Math.max(largestCell, density[s] * width);
      }
    }
    double[][] confusion = model.confusion(u * size);
    for (int s = 0; s < expected.length; s++) {
      for (int c = 0; c < expected.length; c++) {
        // Half a cell at each of two borders, and the tails beyond 99 kV.
        assertThat(confusion[s][c])
            .as("%s %s", s, c)
            .isCloseTo(expected[s][c], within(largestCell + 0.003));
      }
    }
  }

  @Property
  void oneReading_neverMakesAnythingCertain(
      @ForAll("references") Reference normal,
      @ForAll @DoubleRange(min = -100, max = 10_000) double y,
      @ForAll @DoubleRange(min = 0, max = 0.2) double u) {
    ReadingModel model = model(normal);
    double[] likelihood = model.likelihood(List.of(volts(y)), 0, u);
    for (double a : likelihood) {
      assertThat(a).isPositive().isFinite();
      for (double b : likelihood) {
        assertThat(a / b).isLessThanOrEqualTo(800.0 * model.states());
      }
    }
  }

  @Property
  void readingAtALimit_speaksForNeither(
      @ForAll @Scale(4) @DoubleRange(min = 0.05, max = 50) double value,
      @ForAll @Scale(4) @DoubleRange(min = 0.005, max = 0.5) double part,
      @ForAll @DoubleRange(min = 0, max = 0.5) double uPart,
      @ForAll @DoubleRange(min = -0.25, max = 0.25) double beside,
      @ForAll boolean tolerance) {
    double half = value * part;
    double u = half * uPart;
    Reference normal =
        tolerance
            ? new Around(V, value, half)
            : new Within(V, OptionalDouble.of(value - half), OptionalDouble.of(value + half));
    ReadingModel model = model(normal);
    double[] below = model.likelihood(List.of(volts(value - half + beside * u)), 0, u);
    double[] above = model.likelihood(List.of(volts(value + half + beside * u)), 0, u);
    assertThat(below[3] / below[0]).as("low against normal").isBetween(1 / 3.0, 3.0);
    assertThat(above[4] / above[0]).as("high against normal").isBetween(1 / 3.0, 3.0);
  }

  @Property
  void orderOfReadings_doesNotMatter(
      @ForAll("references") Reference normal,
      @ForAll @Size(min = 1, max = 6) List<@IntRange(min = -1, max = 900) Integer> millivolts,
      @ForAll @DoubleRange(min = 0, max = 0.2) double u,
      @ForAll long shuffle) {
    List<ReadingValue> readings = new ArrayList<>();
    for (int mv : millivolts) {
      readings.add(mv < 0 ? new ReadingValue.OverRange(V) : volts(mv / 1000.0));
    }
    double[] before = model(normal).likelihood(readings, u, u);
    Collections.shuffle(readings, new Random(shuffle));
    assertThat(model(normal).likelihood(readings, u, u)).containsExactly(before);
  }

  /** A power of two scales without rounding, so that not a bit may differ but for the unit. */
  @Property
  void scale_changesNothing(
      @ForAll("references") Reference normal,
      @ForAll @DoubleRange(min = 0, max = 100) double y,
      @ForAll @DoubleRange(min = 0, max = 0.2) double u) {
    if (normal instanceof Reference.OverRange) {
      return; // has no scale of its own
    }
    ReadingModel model = model(normal);
    ReadingModel scaled = model(times(1 / 1024.0, normal));
    double[] expected = model.likelihood(List.of(volts(y)), u, u);
    double[] found = scaled.likelihood(List.of(volts(y / 1024)), u / 1024, u / 1024);
    for (int s = 0; s < expected.length; s++) {
      assertThat(found[s] / 1024).isCloseTo(expected[s], within(ROUNDING * expected[s]));
    }
    assertThat(scaled.pConforms(volts(y / 1024), u / 1024)).isEqualTo(model.pConforms(volts(y), u));
  }

  private static Reference times(double f, Reference r) {
    if (r instanceof Around a) {
      return new Around(V, f * a.nominal(), f * a.tolerance());
    }
    Within w = (Within) r;
    return new Within(V, times(f, w.low()), times(f, w.high()), w.byFactor());
  }

  private static OptionalDouble times(double f, OptionalDouble v) {
    return v.isPresent() ? OptionalDouble.of(f * v.getAsDouble()) : v;
  }

  @Property
  void conformance_growsInsideAndFallsOutside_asUncertaintyShrinks(
      @ForAll @DoubleRange(min = -1, max = 1) double y,
      @ForAll @DoubleRange(min = 0, max = 1) double u,
      @ForAll @DoubleRange(min = 0, max = 1) double smaller) {
    ReadingModel atMost =
        ReadingModel.of(new Within(V, OptionalDouble.empty(), OptionalDouble.of(0.25)), List.of());
    double before = atMost.pConforms(volts(y), u);
    double after = atMost.pConforms(volts(y), u * smaller);
    if (y <= 0.25) {
      assertThat(after).isGreaterThanOrEqualTo(before);
    } else {
      assertThat(after).isLessThanOrEqualTo(before);
    }
    ReadingModel band =
        ReadingModel.of(new Within(V, OptionalDouble.of(-0.5), OptionalDouble.of(0.25)), List.of());
    if (y >= -0.5 && y <= 0.25) {
      assertThat(band.pConforms(volts(y), u * smaller))
          .isGreaterThanOrEqualTo(band.pConforms(volts(y), u) - ROUNDING);
    }
  }

  @Property
  void conformance_neverFalls_asToleranceGrows(
      @ForAll @DoubleRange(min = 0, max = 2) double y,
      @ForAll @Scale(4) @DoubleRange(min = 0.01, max = 1) double tolerance,
      @ForAll @DoubleRange(min = 1, max = 3) double wider,
      @ForAll @DoubleRange(min = 0, max = 0.5) double u) {
    ReadingModel narrow = ReadingModel.of(new Around(V, 1, tolerance), List.of());
    ReadingModel wide = ReadingModel.of(new Around(V, 1, tolerance * wider), List.of());
    assertThat(wide.pConforms(volts(y), u))
        .isGreaterThanOrEqualTo(narrow.pConforms(volts(y), u) - ROUNDING);
  }
}
