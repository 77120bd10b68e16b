package org.faultwright.measurement;

import java.math.BigDecimal;
import java.math.MathContext;

/**
 * A value with its unit.
 *
 * @param si the value in the unit of {@code dimension}, finite and within the range of {@link
 *     Dimension#least()} and {@link Dimension#most()}
 */
public record Quantity(double si, Dimension dimension) {

  private static final String[] PREFIXES = {"p", "n", "\u00b5", "m", "", "k", "M", "G"};
  private static final int NO_PREFIX = 4;

  /** Checks that the value is finite and makes sense at a bench. */
  public Quantity {
    if (!Double.isFinite(si)) {
      throw new IllegalArgumentException("value must be finite: " + si);
    }
    si += 0.0; // one zero only: -0.0 becomes 0.0
    if (si < dimension.least() || si > dimension.most()) {
      throw new IllegalArgumentException(
          "%s must be in [%s, %s]%s: %s"
              .formatted(
                  dimension.word(),
                  print(dimension.least(), dimension),
                  print(dimension.most(), dimension),
                  dimension == Dimension.RESISTANCE && si < 0
                      ? " (far below 0 the circuit is live: take the power off)"
                      : "",
                  print(si, dimension)));
    }
  }

  /**
   * Reads a value as it is written at the bench: {@code 0.452 V}, {@code 452 mV}, {@code 2,2 kΩ},
   * {@code 4.7 kohm}, {@code 4k7}, {@code 0R1}, {@code 3V3}, {@code 100n}, {@code 1.2e-3 A}, {@code
   * 25 °C}.
   *
   * <p>Prefixes are p, n, u or µ, m, k (also K before a unit), M and G; m is always milli and M
   * always mega. Letters of units may be of either case, except that of the second. A letter in
   * place of the decimal point, or a prefix alone, follows IEC 60062: R, k, M and G mean ohms; p, n
   * and µ mean farads.
   *
   * @throws IllegalArgumentException when the text is not a value with a unit, may mean two things
   *     or makes no sense at a bench; the message says what is missing
   */
  public static Quantity parse(String text) {
    return QuantityText.parse(text, null);
  }

  /**
   * Reads a value of a known kind, as {@link #parse(String)} does.
   *
   * @throws IllegalArgumentException as {@link #parse(String)}, and when the value is of another
   *     kind
   */
  public static Quantity parse(String text, Dimension expected) {
    return QuantityText.parse(text, java.util.Objects.requireNonNull(expected));
  }

  /**
   * The value with the given number of significant digits, at least 1, and a fitting prefix: {@code
   * 452 mV}.
   */
  public String format(int significantDigits) {
    if (significantDigits < 1) {
      throw new IllegalArgumentException(
          "significantDigits must be at least 1: " + significantDigits);
    }
    BigDecimal rounded = BigDecimal.valueOf(si).round(new MathContext(significantDigits));
    return print(rounded, dimension);
  }

  /** The exact value with a fitting prefix; {@link #parse(String)} reads the same value back. */
  @Override
  public String toString() {
    return print(si, dimension);
  }

  private static String print(double si, Dimension dimension) {
    return print(BigDecimal.valueOf(si), dimension);
  }

  private static String print(BigDecimal si, Dimension dimension) {
    int prefix = NO_PREFIX;
    BigDecimal value = si.stripTrailingZeros();
    if (value.signum() != 0 && dimension != Dimension.TEMPERATURE) {
      int power = value.precision() - value.scale() - 1;
      int largest = dimension == Dimension.TIME ? NO_PREFIX : PREFIXES.length - 1;
      prefix = Math.max(0, Math.min(largest, NO_PREFIX + Math.floorDiv(power, 3)));
      value = value.scaleByPowerOfTen(-3 * (prefix - NO_PREFIX)).stripTrailingZeros();
    }
    boolean readable = Math.abs(value.scale()) < 20;
    String digits = readable ? value.toPlainString() : value.toString();
    return digits + " " + PREFIXES[prefix] + dimension.unit();
  }
}
