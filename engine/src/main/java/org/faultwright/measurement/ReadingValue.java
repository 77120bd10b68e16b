package org.faultwright.measurement;

/** What an instrument showed. */
public sealed interface ReadingValue {

  /** A value on the display. */
  record Measured(Quantity quantity) implements ReadingValue {}

  /** Beyond the range: {@code OL} on most displays, for example an open line in diode mode. */
  record OverRange(Dimension dimension) implements ReadingValue {}

  /** What kind of quantity was read. */
  default Dimension kind() {
    return this instanceof Measured m ? m.quantity().dimension() : ((OverRange) this).dimension();
  }
}
