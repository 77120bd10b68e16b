package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** Instruments: load, ranges and combined uncertainty. */
class MeterReference {

  private static Meter loading(double ohms) {
    return new Meter(
        false,
        OptionalDouble.empty(),
        OptionalDouble.of(ohms),
        OptionalDouble.empty(),
        Optional.empty(),
        List.of());
  }

  /**
   * 5 V behind two equal resistors, read with 10 Mohm: 2.487562 V with 100k, 2.380952 V with 1M
   * (closed form: a voltage divider with the meter beside its lower half). Unloaded it is 2.5 V.
   */
  @Test
  void unloaded_takesTheLoadOff() {
    assertThat(loading(10e6).unloaded(2.487562, 50e3)).isCloseTo(2.5, within(1e-6));
    assertThat(loading(10e6).unloaded(2.380952, 500e3)).isCloseTo(2.5, within(1e-6));
    assertThat(Meter.UNKNOWN.unloaded(2.38, 500e3)).isEqualTo(2.38);
  }

  @Test
  void accuracy_isThatOfTheSmallestRangeThatHoldsTheValue() {
    Accuracy fine = new Accuracy(0.005, 0.003, 0.001);
    Accuracy coarse = new Accuracy(0.008, 0.3, 0.1);
    Meter meter =
        new Meter(
            false,
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Optional.empty(),
            List.of(new Meter.Range(6, fine)));
    assertThat(meter.accuracyAt(-5.9, coarse)).isEqualTo(fine);
    assertThat(meter.accuracyAt(6, coarse)).isEqualTo(fine);
    assertThat(meter.accuracyAt(6.1, coarse)).isEqualTo(coarse);
  }

  /**
   * EA-4/02 M:2013, example S9, a hand-held meter at 100 V (value from memory, recomputed): u =
   * sqrt((.002/2)^2 + (.05/sqrt 3)^2 + (.011/sqrt 3)^2) = .0295748 V. The .05 V is half a count of
   * 0.1 V, the .011 V the limit of error of the calibrator, the .001 V its calibration.
   */
  @Test
  void standardUncertainty_combinesAsInAPublishedExample() {
    double resolution =
        new Accuracy(0, 0, 0.1).standardUncertainty(100); // q/sqrt 12 = (q/2)/sqrt 3
    double limit = new Accuracy(0, 0.011, 0).standardUncertainty(100);
    double u = Math.sqrt(0.001 * 0.001 + resolution * resolution + limit * limit);
    assertThat(u).isCloseTo(0.0295748, within(1e-6));
    assertThat(1.65 * u).isCloseTo(0.0487984, within(1e-6));
  }

  @Test
  void meter_refusesWhatMakesNoSense() {
    assertThatThrownBy(() -> loading(0)).hasMessage("inputResistance must be above 0: 0.0");
    Accuracy any = new Accuracy(0, 0, 0);
    assertThatThrownBy(() -> new Meter.Range(-1, any)).hasMessage("upTo must be above 0: -1.0");
    assertThatThrownBy(
            () ->
                new Meter(
                    false,
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    Optional.empty(),
                    List.of(new Meter.Range(6, any), new Meter.Range(6, any))))
        .hasMessage("ranges must ascend: 6.0, 6.0");
  }
}
