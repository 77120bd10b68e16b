package org.faultwright.cli.dialogue;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.regex.Pattern;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.Point;

/**
 * A reading as it is written at the bench: as the display shows it, mostly without a unit.
 *
 * <p>Meters show a diode value as {@code 0.452} or, on another range, as {@code 452}: both mean
 * volts and thousandths of a volt, and nobody writes the unit down (common practice, no source). So
 * a bare number is in the unit of the point, unless that puts it more than ten times beyond what is
 * normal there, and thousandths do not.
 */
final class BenchReading {

  /** A reading of more times its normal value is read as thousandths. */
  private static final double TOO_MANY_TIMES = 10;

  private static final double THOUSANDTH = 1e-3;
  private static final int THOUSANDTHS = 3;
  private static final Pattern BARE = Pattern.compile("[+-]?([0-9]+([.,][0-9]*)?|[.,][0-9]+)");

  private static final Pattern WITH_PREFIX =
      Pattern.compile("[+-]?[0-9]*[.,]?[0-9]+ ?[pnum\u00b5kKM]");

  private BenchReading() {}

  /** How a reading of a point may be written. */
  static String examples(Point point) {
    Dimension kind = point.reference().dimension();
    return (kind == Dimension.VOLTAGE
            ? "0.452, 452"
            : kind == Dimension.RESISTANCE ? "470, 4.7k, 4k7" : kind.example())
        + ", OL";
  }

  /** Whether the text is meant as a value: a number begins it, or it says over-range. */
  static boolean looksLikeOne(String typed) {
    return ReadingValue.isOverRange(typed) || typed.strip().matches("(?s)[+-]?[.,]?[0-9].*");
  }

  /**
   * Reads it.
   *
   * @throws IllegalArgumentException when it is no value of the point's kind; the message is for
   *     the person who typed it
   */
  static ReadingValue parse(String typed, Point point) {
    String text = typed.strip();
    Reference reference = point.reference();
    if (WITH_PREFIX.matcher(text).matches()) {
      text += reference.dimension().unit(); // 452m, 4.7k
    }
    if (ReadingValue.isOverRange(text) || !BARE.matcher(text).matches()) {
      return ReadingValue.parse(text, reference.dimension());
    }
    BigDecimal number = new BigDecimal(text.replace(',', '.'));
    BigDecimal si = // in decimals, so that it is shown as it was typed
        isInThousandths(number.doubleValue(), reference)
            ? number.movePointLeft(THOUSANDTHS)
            : number;
    return new ReadingValue.Measured(new Quantity(si.doubleValue(), reference.dimension()));
  }

  private static boolean isInThousandths(double number, Reference reference) {
    boolean divides =
        reference.dimension() == Dimension.VOLTAGE || reference.dimension() == Dimension.CURRENT;
    return divides
        && normal(reference)
            .map(
                normal ->
                    Math.abs(number) > TOO_MANY_TIMES * normal
                        && Math.abs(number) * THOUSANDTH <= TOO_MANY_TIMES * normal)
            .orElse(false);
  }

  /** The size of a normal value; empty where no value is normal. */
  private static Optional<Double> normal(Reference reference) {
    if (reference instanceof Reference.Around r) {
      return Optional.of(Math.abs(r.nominal()) + r.tolerance());
    } else if (reference instanceof Reference.Within r) {
      double low = Math.abs(r.low().orElse(0));
      return Optional.of(Math.max(low, Math.abs(r.high().orElse(0))));
    }
    return Optional.empty();
  }
}
