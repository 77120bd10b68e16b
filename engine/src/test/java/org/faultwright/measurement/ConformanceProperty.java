package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.faultwright.measurement.Conformance.Verdict;

/** What is said of a reading beside its limits, and how that moves with its uncertainty. */
class ConformanceProperty {

  private static ReadingValue volts(double si) {
    return new ReadingValue.Measured(new Quantity(si, Dimension.VOLTAGE));
  }

  private static Reference limits(double low, double high) {
    return new Reference.Within(Dimension.VOLTAGE, OptionalDouble.of(low), OptionalDouble.of(high));
  }

  private static Conformance of(Reference normal, double y, double u, double factor) {
    return Conformance.of(normal, volts(y), new GuardBand(factor, u));
  }

  /** By the definition of JCGM 106:2012, clause 7: the integral of the normal density, summed. */
  @Property(tries = 200)
  void probability_isTheIntegralOverTheTolerance(
      @ForAll @DoubleRange(min = -1, max = 3) double y,
      @ForAll @DoubleRange(min = 0.05, max = 1) double u) {
    double sum = 0;
    int cells = 20_000;
    for (int i = 0; i < cells; i++) {
      double z = ((i + 0.5) / cells * 2 - y) / u;
      sum += Math.exp(-z * z / 2) / (u * Math.sqrt(2 * Math.PI)) * 2 / cells;
    }
    assertThat(of(limits(0, 2), y, u, 0).pConforms()).isCloseTo(sum, within(1e-7));
  }

  @Property
  void verdict_agreesWithTheSide_andEachWordHoldsItsPromise(
      @ForAll @DoubleRange(min = -1, max = 3) double y,
      @ForAll @DoubleRange(min = 0.01, max = 3) double u) {
    Conformance c = of(limits(0, 2), y, u, 0);
    double p = c.pConforms();
    assertThat(c.inside()).isEqualTo(y >= 0 && y <= 2);
    assertThat(c.accepted()).isEqualTo(c.inside());
    switch (c.verdict()) {
      case IN -> assertThat(p).isGreaterThanOrEqualTo(0.95);
      case JUST_IN -> assertThat(p).isBetween(0.84, 0.95);
      case TOO_CLOSE -> assertThat(c.inside() ? p : 1 - p).isLessThan(0.84);
      case JUST_OUT -> assertThat(p).isBetween(0.05, 0.16);
      default -> assertThat(p).isLessThanOrEqualTo(0.05);
    }
    // by less than its uncertainty: U = 2 u from the nearer limit
    if (c.verdict() == Verdict.JUST_IN || c.verdict() == Verdict.JUST_OUT) {
      assertThat(Math.min(Math.abs(y), Math.abs(2 - y))).isLessThan(2 * u);
    }
  }

  /** Far from both limits a smaller uncertainty makes surer, whichever side it is. */
  @Property
  void shrinkingUncertainty_movesTowardsCertainty(
      @ForAll @DoubleRange(min = -1, max = 3) double y,
      @ForAll @DoubleRange(min = 0.01, max = 0.4) double u,
      @ForAll @DoubleRange(min = 0.05, max = 1) double smaller) {
    double before = of(limits(-1e6, 2), y, u, 0).pConforms();
    double after = of(limits(-1e6, 2), y, u * smaller, 0).pConforms();
    if (y < 2) {
      assertThat(after).isGreaterThanOrEqualTo(before);
    } else if (y > 2) {
      assertThat(after).isLessThanOrEqualTo(before);
    }
  }

  @Property
  void widerTolerance_neverLowersConformance(
      @ForAll @DoubleRange(min = -1, max = 3) double y,
      @ForAll @DoubleRange(min = 0.01, max = 3) double u,
      @ForAll @DoubleRange(min = 0, max = 2) double more) {
    Conformance narrow = of(limits(0, 2), y, u, 0);
    Conformance wide = of(limits(-more, 2 + more), y, u, 0);
    assertThat(wide.pConforms()).isGreaterThanOrEqualTo(narrow.pConforms() - 1e-12);
    if (narrow.inside()) {
      assertThat(wide.inside()).isTrue();
    }
  }

  /** A wider guard band accepts nothing more, and never what lies outside. */
  @Property
  void guardBand_onlyTakesAway(
      @ForAll @DoubleRange(min = -1, max = 3) double y,
      @ForAll @DoubleRange(min = 0.01, max = 1) double u,
      @ForAll @DoubleRange(min = 0, max = 1) double factor,
      @ForAll @DoubleRange(min = 0, max = 1) double more) {
    Conformance some = of(limits(0, 2), y, u, factor);
    Conformance stricter = of(limits(0, 2), y, u, factor + more);
    assertThat(some.accepted() && !some.inside()).isFalse();
    assertThat(stricter.accepted() && !some.accepted()).isFalse();
    if (some.accepted() && factor >= 0.5) {
      assertThat(some.pConforms())
          .isGreaterThan(0.68); // at least u inside both limits: PHI(1) - PHI(-1)
    }
  }

  /** Millivolts for volts: nothing is said otherwise. */
  @Property
  void scale_changesNothing(
      @ForAll @DoubleRange(min = -1, max = 3) double y,
      @ForAll @DoubleRange(min = 0.01, max = 1) double u,
      @ForAll @DoubleRange(min = 0, max = 1) double factor) {
    double scale = 1.0 / 1024;
    Conformance plain = of(limits(0, 2), y, u, factor);
    assertThat(of(limits(0, 2 * scale), y * scale, u * scale, factor)).isEqualTo(plain);
  }
}
