package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.faultwright.measurement.PairModel.Reading;
import org.faultwright.measurement.Reference.Around;

/** Readings of a pair, held to plain sums over what the two points and the instrument may do. */
class PairModelProperty {

  private static final Dimension V = Dimension.VOLTAGE;
  private static final double NOMINAL = 0.45;

  /** Of a plain sum with some hundred values: far below what matters. */
  private static final double OF_A_SUM = 1e-6;

  private static ReadingModel model(Around normal) {
    return ReadingModel.of(
        normal,
        List.of(
            new ReadingModel.StateRange("low", Optional.empty()),
            new ReadingModel.StateRange("open", Optional.empty())));
  }

  private static Around around(double tolerance) {
    return new Around(V, NOMINAL, tolerance);
  }

  private static PairModel pair(double tolerance, double otherTolerance, double differsBy) {
    return PairModel.of(
        model(around(tolerance)),
        around(tolerance),
        model(around(otherTolerance)),
        around(otherTolerance),
        differsBy);
  }

  private static double all(double tolerance, Reading r) {
    return model(around(tolerance))
        .likelihood(new ReadingModel.Taken(r.value(), 1, 0), r.offset(), r.noise())[0];
  }

  private static double sum(DoubleUnaryOperator f, double from, double to, int cells) {
    double width = (to - from) / cells;
    double sum = 0;
    for (int i = 0; i < cells; i++) {
      sum += width * f.applyAsDouble(from + (i + 0.5) * width);
    }
    return sum;
  }

  private static double bell(double x, double sd) {
    return Math.exp(-x * x / sd / sd / 2) / sd / Math.sqrt(2 * Math.PI);
  }

  /** What the two share is summed over; the rest of each is a normal of its own. */
  @Property(tries = 40, edgeCases = EdgeCasesMode.NONE)
  void alike_equalsThePlainSumOverWhatBothShare(
      @ForAll @Scale(4) @DoubleRange(min = 0.02, max = 0.08) double tolerance,
      @ForAll @Scale(4) @DoubleRange(min = 0.1, max = 1.2) double part,
      @ForAll @Scale(4) @DoubleRange(min = 0.0005, max = 0.01) double noise,
      @ForAll @Scale(4) @DoubleRange(min = -0.08, max = 0.08) double d1,
      @ForAll @Scale(4) @DoubleRange(min = -0.08, max = 0.08) double d2) {
    Reading one = new Reading(NOMINAL + d1, 0, noise);
    Reading other = new Reading(NOMINAL + d2, 0, 2 * noise);
    double differsBy = part * tolerance;
    double sd = tolerance / 2;
    double own = differsBy / 2 / Math.sqrt(2);
    double shared = Math.sqrt(sd * sd - own * own);
    double both =
        sum(
            c ->
                bell(c, shared)
                    * bell(d1 - c, Math.hypot(own, noise))
                    * bell(d2 - c, Math.hypot(own, 2 * noise)),
            -9 * shared,
            9 * shared,
            4000);
    double read = 1 - ReadingModel.P_MISREAD;
    double n1 = bell(d1, Math.hypot(sd, noise));
    double n2 = bell(d2, Math.hypot(sd, 2 * noise));
    double m1 = all(tolerance, one) - read * n1;
    double m2 = all(tolerance, other) - read * n2;
    double expected = read * read * both + read * n1 * m2 + read * n2 * m1 + m1 * m2;
    double found =
        pair(tolerance, tolerance, differsBy).ofBoth(one, other)[1]
            * all(tolerance, one)
            * all(tolerance, other);
    assertThat(found).isCloseTo(expected, within(OF_A_SUM * expected));
  }

  /** A reading of one point says what is left when the other is summed over. */
  @Property(tries = 6, edgeCases = EdgeCasesMode.NONE)
  void ratiosOfOne_areThoseOfBothSummedOverTheOther(
      @ForAll @Scale(4) @DoubleRange(min = 0.02, max = 0.08) double tolerance,
      @ForAll @Scale(4) @DoubleRange(min = 0.02, max = 0.08) double otherTolerance,
      @ForAll @Scale(4) @DoubleRange(min = 0, max = 1) double part,
      @ForAll @Scale(4) @DoubleRange(min = 0.0005, max = 0.01) double noise,
      @ForAll @Scale(4) @DoubleRange(min = -0.3, max = 0.3) double d1,
      @ForAll boolean isSecond) {
    double least = Math.abs(tolerance - otherTolerance);
    double most = Math.hypot(tolerance, otherTolerance);
    PairModel pair = pair(tolerance, otherTolerance, least + (0.05 + 0.9 * part) * (most - least));
    double mine = isSecond ? otherTolerance : tolerance;
    double others = isSecond ? tolerance : otherTolerance;
    Reading read = new Reading(NOMINAL + d1, 0, noise);
    double[] both = new double[3];
    int cells = 40_000;
    double reach = Math.log(2e6);
    double overOne = 0;
    for (int i = 0; i < cells; i++) {
      double t = reach * (2 * (i + 0.5) / cells - 1);
      double width = Math.cosh(t) * 2 * reach / cells;
      Reading other = new Reading(NOMINAL + d1 + Math.sinh(t), 0, 3 * noise);
      double[] ratios = isSecond ? pair.ofBoth(other, read) : pair.ofBoth(read, other);
      double p = all(others, other) * width;
      overOne += p;
      for (int s = 0; s < 3; s++) {
        both[s] += ratios[s] * p;
      }
    }
    double[] one = pair.ofOne(isSecond, read);
    assertThat(mine).isPositive();
    double never = 1 - overOne; // over-range, and what lies beyond the sum
    for (int s = 0; s < 3; s++) {
      assertThat(both[s] + never * one[s])
          .as("state %d", s)
          .isCloseTo(one[s], within(1e-3 * one[s]));
    }
  }

  /** Off alike is not seen: an offset that both share moves the ratio little, one alone much. */
  @Property(tries = 40, edgeCases = EdgeCasesMode.NONE)
  void theBoundHolds_andScaleDoesNotMatter(
      @ForAll @Scale(4) @DoubleRange(min = 0.02, max = 0.08) double tolerance,
      @ForAll @Scale(4) @DoubleRange(min = 0.1, max = 1.2) double part,
      @ForAll @Scale(4) @DoubleRange(min = 0, max = 0.01) double noise,
      @ForAll @Scale(4) @DoubleRange(min = -0.3, max = 0.3) double d1,
      @ForAll @Scale(4) @DoubleRange(min = -0.3, max = 0.3) double d2,
      @ForAll @Scale(4) @DoubleRange(min = -0.3, max = 0.3) double offset) {
    PairModel pair = pair(tolerance, tolerance, part * tolerance);
    Reading one = new Reading(NOMINAL + d1, offset, noise);
    Reading other = new Reading(NOMINAL + d2, offset, noise);
    double most = pair.mostOfBoth(one, other);
    for (double ratio : pair.ofBoth(one, other)) {
      assertThat(ratio).isPositive().isLessThanOrEqualTo(most);
    }
    for (double ratio : pair.ofOne(false, one)) {
      assertThat(ratio).isPositive().isLessThanOrEqualTo(pair.mostOfOne(false, one));
    }
    double k = 1000;
    Around scaled = new Around(V, k * NOMINAL, k * tolerance);
    PairModel other1000 =
        PairModel.of(model(scaled), scaled, model(scaled), scaled, k * part * tolerance);
    double[] large =
        other1000.ofBoth(
            new Reading(k * one.value(), k * offset, k * noise),
            new Reading(k * other.value(), k * offset, k * noise));
    double[] small = pair.ofBoth(one, other);
    for (int s = 0; s < 3; s++) {
      assertThat(large[s]).isCloseTo(small[s], within(1e-9 * small[s]));
    }
  }
}
