package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.faultwright.measurement.Reference;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Draws known-good boards and counts how often a reference holds what it promises. */
class CoverageTest {

  private static final int TRIES = 4_000;
  private static final double MEAN = 0.45;
  private static final double DEVIATION = 0.004;
  private static final NormalDistribution BOARDS = NormalDistribution.of(MEAN, DEVIATION);

  /** The factor: within three standard errors of the confidence, neither more nor less. */
  @ParameterizedTest
  @CsvSource({"3, 0.9, 0.9", "4, 0.95, 0.95", "10, 0.95, 0.95", "30, 0.95, 0.95", "30, 0.99, 0.8"})
  void factorKeepsItsPromise(int n, double coverage, double confidence) {
    Random chance = new Random(1969);
    double factor = ToleranceFactor.twoSided(n, coverage, confidence);
    int kept = 0;
    for (int i = 0; i < TRIES; i++) {
      Sample sample = draw(n, 1e-9, chance);
      double half = factor * sample.deviation();
      double content = BOARDS.probability(sample.mean() - half, sample.mean() + half);
      kept += content >= coverage ? 1 : 0;
    }
    double error = Math.sqrt(confidence * (1 - confidence) / TRIES);
    assertThat(kept / (double) TRIES).isBetween(confidence - 3 * error, confidence + 3 * error);
  }

  /** Smallest and largest reading, of boards that are not normal at all (uniform). */
  @ParameterizedTest
  @CsvSource({"30, 0.85", "93, 0.95"})
  void sortedReadingsKeepTheirPromise(int n, double coverage) {
    Random chance = new Random(1941);
    double confidence = DistributionFree.pConfidence(n, 2, 1, coverage);
    int kept = 0;
    for (int i = 0; i < TRIES; i++) {
      double[] sorted = chance.doubles(n).sorted().toArray();
      kept += sorted[n - 1] - sorted[0] >= coverage ? 1 : 0;
    }
    double error = Math.sqrt(confidence * (1 - confidence) / TRIES);
    assertThat(kept / (double) TRIES).isBetween(confidence - 3 * error, confidence + 3 * error);
  }

  /**
   * All of it, on readings that a display rounds, with the tests before it: at least the confidence
   * less three standard errors, wherever the result is a normal interval.
   */
  @ParameterizedTest
  @CsvSource({"5, 0.001", "10, 0.001", "30, 0.001", "10, 0.004", "30, 0.01"})
  void roundedReadingsKeepThePromise(int n, double step) {
    Random chance = new Random(43);
    KnownGood usual = new KnownGood(ReferencePolicy.USUAL);
    int kept = 0;
    int normal = 0;
    for (int i = 0; i < TRIES / 4; i++) {
      Sample sample = draw(n, step, chance);
      PinReadings pin = KnownGoodTest.volts(sample.sorted());
      PinReadings rounded =
          new PinReadings(
              pin.id(), pin.pin(), pin.net(), pin.dimension(), step, pin.side(), pin.readings());
      if (usual.reference(rounded).result() instanceof PinReference.AsNormal result) {
        Reference.Around around = (Reference.Around) result.reference();
        double low = around.nominal() - around.tolerance();
        double high = around.nominal() + around.tolerance();
        normal++;
        kept += BOARDS.probability(low, high) >= 0.95 ? 1 : 0;
      }
    }
    assertThat(normal).isGreaterThan(TRIES / 4 * 9 / 10);
    double error = Math.sqrt(0.95 * 0.05 / normal);
    assertThat(kept / (double) normal).isGreaterThan(0.95 - 3 * error);
  }

  private static Sample draw(int n, double step, Random chance) {
    double[] values = new double[n];
    double offset = chance.nextDouble() * step;
    Arrays.setAll(
        values,
        i -> step * Math.rint((MEAN + offset + DEVIATION * chance.nextGaussian()) / step) - offset);
    return new Sample(values, step);
  }
}
