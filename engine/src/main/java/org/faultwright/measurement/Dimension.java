package org.faultwright.measurement;

/** What kind of quantity a number is, with its SI base unit. */
public enum Dimension {
  /** Volts; also the drop in diode mode. */
  VOLTAGE("V", "voltage"),
  /** Ohms. */
  RESISTANCE("\u2126", "resistance"),
  /** Amperes. */
  CURRENT("A", "current"),
  /** Farads. */
  CAPACITANCE("F", "capacitance"),
  /** Degrees Celsius. */
  TEMPERATURE("\u00b0C", "temperature"),
  /** Seconds. */
  TIME("s", "time"),
  /** Hertz. */
  FREQUENCY("Hz", "frequency");

  private final String unit;
  private final String word;

  Dimension(String unit, String word) {
    this.unit = unit;
    this.word = word;
  }

  /** The symbol of the unit without a prefix. */
  public String unit() {
    return unit;
  }

  /** What a technician calls it. */
  public String word() {
    return word;
  }
}
