package org.faultwright.measurement;

/**
 * How the forward drop of a junction depends on current and temperature, by the diode law of
 * Shockley: {@code V = n kT/q ln(I/Is)}.
 *
 * @see "W. Shockley, The theory of p-n junctions in semiconductors and p-n junction transistors,
 *     Bell System Technical Journal 28, 1949, 435-489"
 */
public final class DiodeDrop {

  /** Zero degrees Celsius in kelvins. */
  private static final double KELVIN = 273.15;

  /** Boltzmann's constant over the elementary charge, in V/K; exact since 2019 (SI). */
  private static final double K_OVER_Q = 1.380649e-23 / 1.602176634e-19;

  /** Band gap of silicon over the elementary charge, extrapolated to 0 K, in V. */
  private static final double BAND_GAP = 1.12;

  private DiodeDrop() {}

  /** kT/q in volts. */
  public static double thermalVoltage(double celsius) {
    return K_OVER_Q * (celsius + KELVIN);
  }

  /**
   * By how much the drop changes when the current does.
   *
   * @param from the current before, in amperes, above 0
   * @param to the current after, in amperes, above 0
   * @param ideality n, between 1 and 2 for silicon
   * @return in volts, above 0 for a larger current
   */
  public static double byCurrent(double from, double to, double ideality, double celsius) {
    return ideality * thermalVoltage(celsius) * Math.log(to / from);
  }

  /**
   * By how much the drop of a silicon junction changes with its temperature at the same current:
   * {@code (V - Eg/q - 3kT/q) / T}, about -2 mV/K.
   *
   * @return in V/K
   */
  public static double perKelvin(double volts, double celsius) {
    return (volts - BAND_GAP - 3 * thermalVoltage(celsius)) / (celsius + KELVIN);
  }
}
