package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import org.faultwright.measurement.Conformance.Verdict;
import org.junit.jupiter.api.Test;

/**
 * A link of enamelled copper wire of 0.02 mm, read in ohms with the leads subtracted: 54.4 ohm/m +-
 * 10 % (IEC 60317-0-1, the copper of IEC 60028 at 1/58.5; values from memory, recomputed). The
 * meter is the ordinary one of the vocabulary: 1 % and three counts of 0.1 ohm.
 */
class CopperLinkReference {

  private static final double DIAMETER = 0.02e-3;
  private static final double PER_METRE = 1e-6 / 58.5 / (Math.PI * DIAMETER * DIAMETER / 4);
  private static final Accuracy OHMS = new Accuracy(0.01, 0.3, 0.1);
  private static final Reference AT_MOST_ONE =
      new Reference.Within(Dimension.RESISTANCE, OptionalDouble.empty(), OptionalDouble.of(1));

  private static Conformance read(double ohms) {
    return Conformance.of(
        AT_MOST_ONE,
        new ReadingValue.Measured(new Quantity(ohms, Dimension.RESISTANCE)),
        new GuardBand(0, OHMS.standardUncertainty(ohms)));
  }

  @Test
  void tableValue_isReproduced() {
    assertThat(PER_METRE).isCloseTo(54.412, within(1e-3));
    assertThat(0.9 * PER_METRE).isCloseTo(48.97, within(5e-3));
    assertThat(1.1 * PER_METRE).isCloseTo(59.85, within(5e-3));
  }

  @Test
  void tenMillimetres_readClearlyUnderOneOhm_overTheWholeTolerance() {
    for (double part : new double[] {0.9, 1, 1.1}) {
      assertThat(read(part * PER_METRE * 0.010).verdict()).isEqualTo(Verdict.IN);
    }
  }

  /** Leads of 0.1 to 0.5 ohm that nobody took off, common practice: it can no longer be said. */
  @Test
  void leadsThatWereNotSubtracted_makeItTooCloseToCall() {
    assertThat(read(PER_METRE * 0.010 + 0.5).verdict()).isEqualTo(Verdict.TOO_CLOSE);
    assertThat(read(PER_METRE * 0.010 + 1.0).verdict()).isEqualTo(Verdict.OUT);
  }
}
