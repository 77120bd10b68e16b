package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.faultwright.measurement.Reference;
import org.faultwright.measurement.knowngood.PinReference.AsNormal;
import org.faultwright.measurement.knowngood.PinReference.DistributionFreely;

class KnownGoodProperty {

  /** Read as volts or as what would be millivolts: the interval is a thousand times as large. */
  @Property(tries = 60)
  void scalingTheUnitScalesTheInterval(
      @ForAll @LongRange(min = 0, max = 1000) long seed,
      @ForAll @IntRange(min = 4, max = 40) int n) {
    double[] values = drawn(seed, n);
    double[] scaled = Arrays.stream(values).map(v -> v * 1000).toArray();
    PinReadings small = stepped(values, 0.001);
    PinReadings large = stepped(scaled, 1);
    KnownGood usual = new KnownGood(ReferencePolicy.USUAL);
    PinReference a = usual.reference(small);
    PinReference b = usual.reference(large);
    assertThat(b.outliers()).hasSameSizeAs(a.outliers());
    assertThat(low(b)).isCloseTo(1000 * low(a), within(1e-6));
    assertThat(high(b)).isCloseTo(1000 * high(a), within(1e-6));
  }

  @Property(tries = 60)
  void theOrderOfBoardsDoesNotMatter(
      @ForAll @LongRange(min = 0, max = 1000) long seed,
      @ForAll @IntRange(min = 0, max = 40) int n,
      @ForAll boolean drops) {
    PinReadings pin = stepped(drawn(seed, n), 0.001);
    List<PinReadings.OnBoard> turned = new ArrayList<>(pin.readings());
    Collections.shuffle(turned, new Random(seed));
    KnownGood knownGood = new KnownGood(new ReferencePolicy(0.95, 0.9, 0.05, drops));
    PinReference a = knownGood.reference(pin);
    PinReference b =
        knownGood.reference(
            new PinReadings(
                pin.id(), pin.pin(), pin.net(), pin.dimension(), pin.step(), pin.side(), turned));
    assertThat(b.result()).isEqualTo(a.result());
    assertThat(b.mean()).isEqualTo(a.mean());
    assertThat(b.deviation()).isEqualTo(a.deviation());
    assertThat(b.outliers()).containsExactlyInAnyOrderElementsOf(a.outliers());
  }

  @Property(tries = 60)
  void moreConfidenceOrCoverageNeverNarrows(
      @ForAll @LongRange(min = 0, max = 1000) long seed,
      @ForAll @IntRange(min = 4, max = 150) int n,
      @ForAll @DoubleRange(min = 0.5, max = 0.99) double less,
      @ForAll @DoubleRange(min = 0.5, max = 0.99) double other,
      @ForAll boolean ofCoverage) {
    PinReadings pin = stepped(drawn(seed, n), 0.001);
    double small = Math.min(less, other);
    double large = Math.max(less, other);
    PinReference a = reference(pin, ofCoverage ? small : 0.9, ofCoverage ? 0.9 : small);
    PinReference b = reference(pin, ofCoverage ? large : 0.9, ofCoverage ? 0.9 : large);
    assertThat(low(b)).isLessThanOrEqualTo(low(a) + 1e-12);
    assertThat(high(b)).isGreaterThanOrEqualTo(high(a) - 1e-12);
  }

  @Property(tries = 40)
  void factorGrowsWithCoverageAndConfidence_andFallsWithBoards(
      @ForAll @IntRange(min = 2, max = 200) int n,
      @ForAll @DoubleRange(min = 0.01, max = 0.99) double coverage,
      @ForAll @DoubleRange(min = 0.01, max = 0.99) double confidence) {
    double k = ToleranceFactor.twoSided(n, coverage, confidence);
    assertThat(k).isGreaterThan(0).isFinite();
    assertThat(ToleranceFactor.twoSided(n, coverage + 0.005, confidence)).isGreaterThan(k);
    assertThat(ToleranceFactor.twoSided(n, coverage, confidence + 0.005)).isGreaterThan(k);
    if (confidence > 0.6) { // with less, more boards only take away from the chance of a wide one
      assertThat(ToleranceFactor.twoSided(n + 1, coverage, confidence)).isLessThan(k);
    }
  }

  private static PinReference reference(PinReadings pin, double coverage, double confidence) {
    return new KnownGood(new ReferencePolicy(coverage, confidence, 0.05, false)).reference(pin);
  }

  /** Normal, or with a long tail, or with one far off. */
  private static double[] drawn(long seed, int n) {
    Random chance = new Random(seed);
    double[] values = new double[n];
    Arrays.setAll(
        values,
        i ->
            switch ((int) (seed % 3)) {
              case 0 -> 0.45 + 0.005 * chance.nextGaussian();
              case 1 -> 0.45 - 0.01 * Math.log(1 - chance.nextDouble());
              default -> i == 0 ? 0.6 : 0.45 + 0.005 * chance.nextGaussian();
            });
    return Arrays.stream(values).map(v -> Math.rint(v * 1000) / 1000).toArray();
  }

  private static PinReadings stepped(double[] values, double step) {
    PinReadings pin = KnownGoodTest.volts(values);
    return new PinReadings(
        pin.id(), pin.pin(), pin.net(), pin.dimension(), step, pin.side(), pin.readings());
  }

  private static double low(PinReference reference) {
    return reference.result() instanceof AsNormal normal
        ? around(normal).nominal() - around(normal).tolerance()
        : limits(reference).low().orElseThrow();
  }

  private static double high(PinReference reference) {
    return reference.result() instanceof AsNormal normal
        ? around(normal).nominal() + around(normal).tolerance()
        : limits(reference).high().orElseThrow();
  }

  private static Reference.Around around(AsNormal normal) {
    return (Reference.Around) normal.reference();
  }

  private static Reference.Within limits(PinReference reference) {
    return ((DistributionFreely) reference.result()).reference();
  }
}
