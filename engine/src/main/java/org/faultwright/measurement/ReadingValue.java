package org.faultwright.measurement;

import java.util.Locale;
import java.util.Set;

/** What an instrument showed. */
public sealed interface ReadingValue {

  /** A value on the display. */
  record Measured(Quantity quantity) implements ReadingValue {
    @Override
    public String toString() {
      return quantity.toString();
    }
  }

  /** Beyond the range: {@code OL} on most displays, for example an open line in diode mode. */
  record OverRange(Dimension dimension) implements ReadingValue {
    @Override
    public String toString() {
      return "OL";
    }
  }

  /**
   * A state that was seen without a number: unsteady, drifting, pulsing, stuck.
   *
   * @param state its name, as the reading model calls it; {@code normal} is one
   */
  record Named(String state, Dimension dimension) implements ReadingValue {
    @Override
    public String toString() {
      return state;
    }
  }

  /** How displays spell over-range; on seven segments O and 0 look alike. */
  Set<String> OVER_RANGE = Set.of("OL", "0L", "O.L", "0.L");

  /** What kind of quantity was read. */
  default Dimension kind() {
    if (this instanceof Measured m) {
      return m.quantity().dimension();
    }
    return this instanceof Named n ? n.dimension() : ((OverRange) this).dimension();
  }

  /**
   * Reads what a display showed: a value as {@link Quantity#parse(String, Dimension)} does, or
   * {@code OL}.
   *
   * @throws IllegalArgumentException when the text is neither, or the value is of another kind
   */
  static ReadingValue parse(String text, Dimension expected) {
    return isOverRange(text)
        ? new OverRange(expected)
        : new Measured(Quantity.parse(text, expected));
  }

  /** Whether the text says over-range. */
  static boolean isOverRange(String text) {
    return OVER_RANGE.contains(text.strip().toUpperCase(Locale.ROOT));
  }
}
