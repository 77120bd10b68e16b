package org.faultwright.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** The diode law against its constants, which are exact since the SI of 2019. */
class DiodeDropReference {

  /** Ten microvolts: values are printed so. */
  private static final double PRINTED = 1e-5;

  /** kT/q: exact constants of the SI of 2019 (closed form). */
  @Test
  void thermalVoltage() {
    assertThat(DiodeDrop.thermalVoltage(25)).isCloseTo(0.0256926, within(1e-7));
    assertThat(DiodeDrop.thermalVoltage(26.85)).isCloseTo(0.0258520, within(1e-7));
    assertThat(DiodeDrop.thermalVoltage(20)).isCloseTo(0.0252617, within(1e-7));
  }

  /** Slope at 300 K: 59.526 mV a decade and 17.919 mV a doubling, times n (closed form). */
  @Test
  void byCurrent_risesByTheLogarithm() {
    assertThat(DiodeDrop.byCurrent(1e-4, 1e-3, 1, 26.85)).isCloseTo(0.059526, within(1e-6));
    assertThat(DiodeDrop.byCurrent(1e-3, 2e-3, 1, 26.85)).isCloseTo(0.017919, within(1e-6));
    assertThat(DiodeDrop.byCurrent(2e-3, 1e-3, 2, 26.85)).isCloseTo(-2 * 0.017919, within(2e-6));
  }

  /**
   * A common small-signal silicon model (Is 2.52 nA, n 1.752, Rs 0.568 ohm; value from memory,
   * recomputed) at 27 C drops .4799 V at 0.1 mA, .5530 V at 0.5 mA and .5847 V at 1 mA: without the
   * drop in Rs, the differences are those of the law. Two of them in parallel share the current and
   * read 31.4 mV lower at 1 mA.
   */
  @Test
  void byCurrent_agreesWithAModelOfASiliconDiode() {
    double rs = 0.568;
    assertThat(DiodeDrop.byCurrent(1e-4, 1e-3, 1.752, 27))
        .isCloseTo(.5847 - .4799 - rs * (1e-3 - 1e-4), within(1e-4));
    assertThat(DiodeDrop.byCurrent(1e-4, 5e-4, 1.752, 27))
        .isCloseTo(.5530 - .4799 - rs * (5e-4 - 1e-4), within(1e-4));
    assertThat(DiodeDrop.byCurrent(1e-3, 5e-4, 1.752, 27) - rs * 5e-4)
        .isCloseTo(-0.0317, within(5e-4));
  }

  /** (V - Eg/q - 3kT/q)/T at 300 K: -1.99 mV/K at .60 V, -1.83 mV/K at .65 V (closed form). */
  @Test
  void perKelvin_isAboutMinusTwoMillivolts() {
    assertThat(DiodeDrop.perKelvin(0.60, 26.85)).isCloseTo(-1.99e-3, within(PRINTED));
    assertThat(DiodeDrop.perKelvin(0.65, 26.85)).isCloseTo(-1.83e-3, within(PRINTED));
  }
}
