package org.faultwright.measurement;

/**
 * What kind of quantity a number is, with its SI base unit and the widest range in which a value at
 * a repair bench makes sense.
 *
 * <p>The ranges only catch slips of the pen, such as {@code 452 MV} for {@code 452 mV}. Common
 * practice, no source; each reaches at least ten times past what such a bench meets.
 */
public enum Dimension {
  /** Volts; also the drop in diode mode. */
  VOLTAGE("V", "voltage", "0.452 V", 1, 0.001, -100e3, 100e3),
  /** Ohms. A zeroed meter may show a little less than nothing. */
  RESISTANCE("\u2126", "resistance", "4.7 k\u2126", 1e3, 0.1, -1, 1e12),
  /** Amperes. */
  CURRENT("A", "current", "120 mA", 0.1, 0.001, -10e3, 10e3),
  /** Farads. A zeroed meter may show a little less than nothing. */
  CAPACITANCE("F", "capacitance", "100 nF", 1e-6, 1e-11, -1, 1e3),
  /** Degrees Celsius; from absolute zero to beyond any soldering tool. */
  TEMPERATURE("\u00b0C", "temperature", "25 \u00b0C", 30, 1, -273.15, 5e3),
  /** Seconds; up to ten years. */
  TIME("s", "time", "30 s", 10, 1, 0, 3.2e8),
  /** Hertz. */
  FREQUENCY("Hz", "frequency", "32.768 kHz", 1e3, 1, 0, 1e12);

  private final String unit;
  private final String word;
  private final String example;
  private final double typical;
  private final double count;
  private final double least;
  private final double most;

  Dimension(
      String unit,
      String word,
      String example,
      double typical,
      double count,
      double least,
      double most) {
    this.unit = unit;
    this.word = word;
    this.example = example;
    this.typical = typical;
    this.count = count;
    this.least = least;
    this.most = most;
  }

  /** The symbol of the unit without a prefix. */
  public String unit() {
    return unit;
  }

  /** What a technician calls it. */
  public String word() {
    return word;
  }

  /** A value of this kind as it is written, for messages. */
  public String example() {
    return example;
  }

  /** The smallest value that makes sense, in SI units. */
  public double least() {
    return least;
  }

  /** The largest value that makes sense, in SI units. */
  public double most() {
    return most;
  }

  /**
   * The order of magnitude of an everyday value, in SI units: the yardstick where a reference
   * states no value of its own, as {@code OL} does not.
   */
  double typical() {
    return typical;
  }

  /** One count of an ordinary hand-held meter, in SI units. Common practice, no source. */
  double count() {
    return count;
  }
}
