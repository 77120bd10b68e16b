package org.faultwright.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.faultwright.measurement.Accuracy;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.knowngood.ToleranceFactor;
import org.junit.jupiter.api.Test;

/**
 * JCGM 100:2008, H.1, the end gauge of 50 mm compared with a standard (values from memory,
 * recomputed). Lengths in nanometres: the example is no reading of a bench, but its parts combine
 * as those of any reading do.
 */
class ReadingUncertaintyReference {

  /** The example prints one or two digits after the point. */
  private static final double PRINTED = 0.05;

  private static final double STANDARD = 25;
  private static final double LENGTH = 50e6;

  /** Five comparisons of 13 nm each by chance; 3.9 and 6.7 nm from the comparator. */
  @Test
  void comparisons_combineTheirParts() {
    double byChance = new ReadingModel.Taken(215, 5, 0).ofMean(13);
    assertThat(byChance).isCloseTo(5.8, within(PRINTED));
    double comparator = new ReadingUncertainty(6.7, 3.9).combined();
    assertThat(new ReadingUncertainty(comparator, byChance).combined())
        .isCloseTo(9.7, within(PRINTED));
  }

  /** Limits of 1e-6/K for the difference of expansions and of 0.05 K for that of temperatures. */
  @Test
  void limits_countAsRectangular() {
    assertThat(LENGTH * 0.1 * new Accuracy(0, 1e-6, 0).standardUncertainty(11.5e-6))
        .isCloseTo(2.9, within(PRINTED));
    assertThat(LENGTH * 11.5e-6 * new Accuracy(0, 0.05, 0).standardUncertainty(0))
        .isCloseTo(16.6, within(PRINTED));
  }

  /**
   * The whole: 31.6711 nm, printed as 32; its second-order term of 11.7 nm makes it 33.76, printed
   * as 34. With 16 degrees of freedom t at 99.5 % is 2.921, which makes 93 nm of the rounded 32.
   */
  @Test
  void combined_isTheRootOfTheSquares() {
    double gauges = new ReadingUncertainty(STANDARD, 9.7).combined();
    double warmth = new ReadingUncertainty(16.6, 2.9).combined();
    ReadingUncertainty all = new ReadingUncertainty(gauges, warmth);
    assertThat(all.combined()).isCloseTo(31.6711, within(1e-4));
    assertThat(new ReadingUncertainty(all.combined(), 11.7).combined())
        .isCloseTo(33.76, within(5e-3));
    double t = Math.sqrt(17) * ToleranceFactor.oneSided(17, 0.5, 0.995);
    assertThat(t).isCloseTo(2.921, within(5e-4));
    assertThat(t * 32).isCloseTo(93, within(0.5));
  }
}
