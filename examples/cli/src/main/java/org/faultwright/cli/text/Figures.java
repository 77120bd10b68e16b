package org.faultwright.cli.text;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.faultwright.pack.Effort;

/** Numbers as a technician reads them: few digits, and no more certainty than there is. */
public final class Figures {

  private static final double LEAST = 0.001;

  private Figures() {}

  /**
   * A probability in percent: whole from 10 % to 99 %, tenths nearer to the ends, {@code below 0.1
   * %} and {@code above 99.9 %} beyond. Exactly 0 % and 100 % only where it is exact.
   *
   * @param p in [0, 1]
   */
  public static String percent(double p) {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("p must be in [0, 1]: " + p);
    }
    if (p == 0 || p == 1) {
      return p == 0 ? "0 %" : "100 %";
    } else if (p < LEAST) {
      return "below 0.1 %";
    } else if (p > 1 - LEAST) {
      return "above 99.9 %";
    }
    boolean whole = p >= 0.0995 && p < 0.985;
    return rounded(100 * p, whole ? 0 : 1) + " %";
  }

  /** A time: {@code 20 s}, {@code 3 min}, {@code 1 h 30 min}, {@code 2 d}. */
  public static String time(Duration time) {
    if (time.compareTo(Duration.ofMinutes(1)) < 0) {
      return time.toSeconds() + " s";
    }
    List<String> parts = new ArrayList<>();
    add(parts, time.toDays(), "d");
    add(parts, time.toHoursPart(), "h");
    // seconds stop mattering when it takes ten minutes
    boolean brief = time.compareTo(Duration.ofMinutes(10)) < 0;
    add(parts, time.toMinutesPart(), "min");
    if (brief) {
      add(parts, time.toSecondsPart(), "s");
    }
    return String.join(" ", parts);
  }

  /** Hands and waiting apart: {@code 3 min, then 15 min waiting}. */
  public static String time(Effort effort) {
    if (effort.waiting().isZero()) {
      return effort.hands().isZero() ? "no time" : time(effort.hands());
    }
    String waiting = time(effort.waiting()) + " waiting";
    return effort.hands().isZero() ? waiting : time(effort.hands()) + " hands on, " + waiting;
  }

  /** Money without a currency sign, since a pack does not know the shop's. */
  public static String money(double amount) {
    return rounded(amount, Math.abs(amount) < 10 ? 1 : 0);
  }

  /** A number with two decimals, for what is compared closely. */
  static String decimal(double value) {
    return String.format(Locale.ROOT, "%.2f", value);
  }

  /**
   * How many times as much: {@code 75 times}.
   *
   * @param factor above 0
   */
  public static String times(double factor) {
    String number = factor < 10 ? rounded(factor, 1) : String.format(Locale.ROOT, "%,.0f", factor);
    return number.replace(',', ' ') + " times";
  }

  private static void add(List<String> parts, long number, String unit) {
    if (number > 0) {
      parts.add(number + " " + unit);
    }
  }

  private static String rounded(double value, int decimals) {
    BigDecimal rounded =
        new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }
}
