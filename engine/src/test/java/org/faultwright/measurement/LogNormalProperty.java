package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.faultwright.measurement.Reference.Within;

/** Readings of what is spread over decades, held to a plain sum. */
class LogNormalProperty {

  private static final double PLAIN_SUM = 1e-7;

  @Property(tries = 100, edgeCases = EdgeCasesMode.NONE)
  void density_equalsThePlainSumOverTheTrueValue(
      @ForAll @Scale(4) @DoubleRange(min = 1.3, max = 30) double factor,
      @ForAll @Scale(4) @DoubleRange(min = 0.01, max = 2) double u,
      @ForAll @Scale(4) @DoubleRange(min = -1, max = 40) double y) {
    ReadingModel model =
        ReadingModel.of(Within.ofFactor(Dimension.CAPACITANCE, 1, factor), List.of());
    double found =
        model.likelihood(new ReadingModel.Taken(y, 1, 0), 0, u)[0]
            - model.likelihood(new ReadingModel.Taken(y, 1, 0), 1e6, u)[0];
    double s = Math.log(factor) / 2;
    int cells = 40_000;
    double sum = 0;
    for (int i = 0; i < cells; i++) {
      double t = -9 + 18 * (i + 0.5) / cells;
      double z = (y - Math.exp(s * t)) / u;
      sum += Math.exp(-(t * t + z * z) / 2) / (2 * Math.PI * u) * 18 / cells;
    }
    // one state: read, or misread as one of the states; the rest does not depend on the offset
    double p = 1 - ReadingModel.P_MISREAD * 0.75;
    assertThat(found).isCloseTo(p * sum, within(PLAIN_SUM * Math.max(sum, 1e-3)));
  }
}
