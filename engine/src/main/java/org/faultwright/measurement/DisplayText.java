package org.faultwright.measurement;

import java.util.Optional;
import java.util.regex.Pattern;

/**
 * What a display shows, as it is noted at the bench: with its unit, or bare where only one unit can
 * be meant.
 *
 * <p>A bare number is taken for
 *
 * <ul>
 *   <li>the unit of its column, where a table states one;
 *   <li>in diode mode millivolts where it has no decimal point ({@code 452}), volts where it has
 *       one and is below 10 ({@code 0.452});
 *   <li>volts or degrees where it has a decimal point, since nobody notes those in another unit
 *       with one; {@code 0} is nothing in any unit.
 * </ul>
 *
 * <p>All else needs its unit: a meter shows ohms, amperes and farads in many.
 */
public final class DisplayText {

  private static final Pattern BARE =
      Pattern.compile("[+-]?(?:\\d{1,9}(?:[.,]\\d{0,9})?|[.,]\\d{1,9})");

  private DisplayText() {}

  /**
   * Reads what a display showed.
   *
   * @param diode whether it was in diode mode
   * @param unit of bare numbers, where it is stated apart
   * @throws IllegalArgumentException when the text is no value of the expected kind, or may mean
   *     two things; the message says what is missing
   */
  public static ReadingValue parse(
      String text, Dimension expected, boolean diode, Optional<String> unit) {
    String bare = text.strip().replace('\u2212', '-');
    if (ReadingValue.isOverRange(bare)) {
      return new ReadingValue.OverRange(expected);
    }
    if (!BARE.matcher(bare).matches()) {
      return ReadingValue.parse(text, expected);
    }
    if (unit.isPresent()) {
      return ReadingValue.parse(bare + " " + unit.get(), expected);
    }
    if (bare.matches("[+-]?0*[.,]?0+")) {
      return new ReadingValue.Measured(new Quantity(0, expected));
    }
    boolean point = bare.indexOf('.') >= 0 || bare.indexOf(',') >= 0;
    if (diode && expected == Dimension.VOLTAGE) {
      if (!point) {
        return ReadingValue.parse(bare + " mV", expected);
      }
      if (Math.abs(Double.parseDouble(bare.replace(',', '.'))) >= 10) {
        throw new IllegalArgumentException(
            "unit is missing: in diode mode a number with a decimal point is volts, and these are"
                + " too many; write "
                + bare
                + " mV if that is meant: "
                + bare);
      }
      return ReadingValue.parse(bare + " V", expected);
    }
    if (point && isAlwaysPlain(expected)) {
      return ReadingValue.parse(bare + " " + expected.unit(), expected);
    }
    throw new IllegalArgumentException(
        "unit is missing, for example " + expected.example() + ": " + bare);
  }

  private static boolean isAlwaysPlain(Dimension kind) {
    return kind == Dimension.VOLTAGE || kind == Dimension.TEMPERATURE;
  }
}
