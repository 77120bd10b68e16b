package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Published values of the test for a normal distribution, and its level on rounded readings. */
class AndersonDarlingReference {

  /**
   * R. B. D'Agostino and M. A. Stephens, Goodness-of-Fit Techniques (1986), Table 4.7, case 3
   * (values from memory, recomputed). The formulas of Table 4.9 meet the points within 2 %.
   */
  @ParameterizedTest
  @CsvSource({
    "0.341, 0.50",
    "0.470, 0.25",
    "0.561, 0.15",
    "0.631, 0.10",
    "0.752, 0.05",
    "0.873, 0.025",
    "1.035, 0.01",
    "1.159, 0.005"
  })
  void percentagePoints(double statistic, double p) {
    assertThat(AndersonDarling.p(statistic)).isCloseTo(p, within(0.02 * p));
  }

  @Test
  void largerStatisticsAreNeverMoreUsual() {
    double before = 1;
    for (double a = 0.01; a < 1000; a *= 1.01) {
      double p = AndersonDarling.p(a);
      // the pieces of the table meet within two thousandths
      assertThat(p).as("at %s", a).isBetween(0.0, before + 2e-3);
      before = p;
    }
    assertThat(before).isLessThan(1e-9);
  }

  /** D'Agostino and Stephens: weights of 20 chicks, A^2 = 0.214 (from memory, recomputed). */
  @Test
  void exampleThatIsNormal() {
    assertThat(
            plain(
                156, 162, 168, 182, 186, 190, 190, 196, 202, 210, 214, 220, 226, 230, 230, 236, 236,
                242, 246, 270))
        .isCloseTo(0.214, within(5e-4));
  }

  /**
   * The weights of eleven men that S. S. Shapiro and M. B. Wilk (1965) use, A^2 = 0.947 (from
   * memory, recomputed).
   */
  @Test
  void exampleThatIsNot() {
    assertThat(plain(148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236))
        .isCloseTo(0.947, within(5e-4));
  }

  private static double plain(double... sorted) {
    double n = sorted.length;
    return AndersonDarling.statistic(sorted) / (1 + 0.75 / n + 2.25 / (n * n));
  }

  /**
   * On normal readings the test rejects as often as it says or less, rounded by the display or not:
   * the share of rejections lies within three standard errors, or below.
   */
  @ParameterizedTest
  @CsvSource({"1, 10", "1, 30", "1, 100", "2, 10", "2, 30", "2, 100", "1000, 30"})
  void levelIsKept_onRoundedReadings(double deviationInSteps, int n) {
    int tries = 1500;
    double level = 0.05;
    Random chance = new Random(20);
    int rejected = 0;
    int tested = 0;
    for (int i = 0; i < tries; i++) {
      double offset = chance.nextDouble();
      double[] values =
          chance
              .doubles(n)
              .map(u -> Math.rint(offset + deviationInSteps * chance.nextGaussian()))
              .toArray();
      if (AndersonDarling.test(new Sample(values, 1)) instanceof Normality.Tested t) {
        tested++;
        rejected += t.p() < level ? 1 : 0;
      }
    }
    assertThat(tested).isGreaterThan(tries / 4);
    double error = Math.sqrt(level * (1 - level) / tested);
    assertThat(rejected / (double) tested).isLessThan(level + 3 * error);
    if (deviationInSteps == 1000) {
      assertThat(rejected / (double) tested).isGreaterThan(level - 3 * error);
    }
  }

  /** An exponential distribution, far from normal, is found out though the display rounds. */
  @Test
  void otherShapesAreFoundOut() {
    Random chance = new Random(21);
    int rejected = 0;
    for (int i = 0; i < 200; i++) {
      double[] values = new double[30];
      Arrays.setAll(values, k -> Math.rint(-3 * Math.log(1 - chance.nextDouble())));
      if (AndersonDarling.test(new Sample(values, 1)) instanceof Normality.Tested t) {
        rejected += t.p() < 0.05 ? 1 : 0;
      }
    }
    assertThat(rejected).isGreaterThan(140);
  }

  @Test
  void fewOrCoarseReadingsAreNotTested() {
    assertThat(AndersonDarling.test(new Sample(new double[] {1, 2, 3, 4, 5, 6, 7}, 1)))
        .isEqualTo(new Normality.TooFew());
    assertThat(AndersonDarling.test(new Sample(new double[] {1, 1, 1, 1, 2, 2, 2, 2, 2}, 1)))
        .isEqualTo(new Normality.TooCoarse());
  }

  @Test
  void testingLeavesTheSampleAsItIs() {
    Sample sample = new Sample(new double[] {1, 1, 3, 4, 5, 6, 7, 9, 9}, 1);
    AndersonDarling.test(sample);
    assertThat(sample.sorted()).containsExactly(1, 1, 3, 4, 5, 6, 7, 9, 9);
  }
}
