package org.faultwright.measurement;

import java.math.BigDecimal;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** How values with units are written at the bench. */
final class QuantityText {

  /** Longest text that is read: no value needs more. */
  private static final int MAX_LENGTH = 40;

  private static final Pattern PLAIN =
      Pattern.compile(
          "(?<number>[+-]?(?:\\d+(?:[.,]\\d*)?|[.,]\\d+)(?:[eE][+-]?\\d{1,3})?)\\s*(?<unit>\\D.*)?");

  /** IEC 60062: the letter stands where the decimal point would. */
  private static final Pattern LETTER_AS_POINT =
      Pattern.compile(
          "(?<whole>[+-]?\\d+)(?<letter>[a-df-zA-DF-Z\u00b5\u2126])(?<part>\\d+)\\s*(?<unit>\\D.*)?");

  private static final Map<Character, Integer> POWERS =
      Map.of('p', -12, 'n', -9, 'u', -6, '\u00b5', -6, 'm', -3, 'k', 3, 'K', 3, 'M', 6, 'G', 9);

  /** By their lower-case spelling; that of the ohm sign is the Greek letter. */
  private static final Map<String, Unit> UNITS =
      Map.ofEntries(
          Map.entry("v", new Unit(Dimension.VOLTAGE, 1)),
          Map.entry("\u03c9", new Unit(Dimension.RESISTANCE, 1)),
          Map.entry("ohm", new Unit(Dimension.RESISTANCE, 1)),
          Map.entry("ohms", new Unit(Dimension.RESISTANCE, 1)),
          Map.entry("r", new Unit(Dimension.RESISTANCE, 1)),
          Map.entry("a", new Unit(Dimension.CURRENT, 1)),
          Map.entry("f", new Unit(Dimension.CAPACITANCE, 1)),
          Map.entry("\u00b0c", new Unit(Dimension.TEMPERATURE, 1)),
          Map.entry("c", new Unit(Dimension.TEMPERATURE, 1)),
          Map.entry("s", new Unit(Dimension.TIME, 1)),
          Map.entry("min", new Unit(Dimension.TIME, 60)),
          Map.entry("h", new Unit(Dimension.TIME, 3600)),
          Map.entry("hz", new Unit(Dimension.FREQUENCY, 1)));

  private record Unit(Dimension dimension, int factor) {}

  private record Scaled(Unit unit, int power) {}

  private final String text;
  private final Dimension expected;

  private QuantityText(String text, Dimension expected) {
    this.text = text;
    this.expected = expected;
  }

  /** Reads a value; {@code expected} may be null: any kind. */
  static Quantity parse(String text, Dimension expected) {
    return new QuantityText(text.strip(), expected).parse();
  }

  private Quantity parse() {
    String plain = plain(text);
    if (plain.isEmpty()) {
      throw wrong("value is missing" + such());
    }
    if (plain.length() > MAX_LENGTH) {
      throw new IllegalArgumentException(
          "value must have at most " + MAX_LENGTH + " characters: " + plain.length());
    }
    Matcher letter = LETTER_AS_POINT.matcher(plain);
    if (letter.matches()) {
      return letterAsPoint(letter);
    }
    Matcher number = PLAIN.matcher(plain);
    if (!number.matches()) {
      throw wrong("value must be a number with a unit" + such());
    }
    BigDecimal value = decimal(number.group("number"));
    String unit = number.group("unit");
    if (unit == null) {
      throw wrong("unit is missing" + such());
    }
    Scaled scaled = scaled(unit);
    if (scaled == null) {
      scaled = prefixAlone(unit, Character.isWhitespace(plain.charAt(number.end("number"))));
    }
    return quantity(value, scaled);
  }

  private Quantity letterAsPoint(Matcher parts) {
    char letter = parts.group("letter").charAt(0);
    BigDecimal value = new BigDecimal(parts.group("whole") + "." + parts.group("part"));
    String unit = parts.group("unit");
    Scaled scaled;
    if (unit == null) {
      Unit own = UNITS.get(lower(letter));
      scaled = own != null && own.factor() == 1 ? new Scaled(own, 0) : byPrefix(letter);
    } else {
      Unit own = UNITS.get(unit.toLowerCase(Locale.ROOT));
      Integer power = POWERS.get(letter);
      if (own == null || power == null || own.factor() != 1 || unit.equals("S")) {
        throw unknownUnit(letter + "..." + unit);
      }
      scaled = new Scaled(own, power);
    }
    return quantity(value, scaled);
  }

  private Scaled prefixAlone(String unit, boolean apart) {
    if (unit.length() == 1 && !apart) {
      if (unit.equals("K")) {
        throw wrong("unit is missing: K alone may be kilohm or kelvin" + such());
      }
      return byPrefix(unit.charAt(0));
    }
    throw unknownUnit(unit);
  }

  /** What a prefix without a unit means by IEC 60062. */
  private Scaled byPrefix(char prefix) {
    Integer power = POWERS.get(prefix);
    if (power == null) {
      throw unknownUnit(String.valueOf(prefix));
    }
    if (prefix == 'm') {
      throw wrong("unit is missing: m alone may be milliohm or millifarad" + such());
    }
    Dimension dimension = power > 0 ? Dimension.RESISTANCE : Dimension.CAPACITANCE;
    return new Scaled(new Unit(dimension, 1), power);
  }

  private static Scaled scaled(String unit) {
    if (unit.endsWith("S")) {
      return null;
    }
    Unit whole = UNITS.get(unit.toLowerCase(Locale.ROOT));
    if (whole != null) {
      return new Scaled(whole, 0);
    }
    Unit rest = UNITS.get(unit.substring(1).toLowerCase(Locale.ROOT));
    Integer power = POWERS.get(unit.charAt(0));
    boolean scalable =
        rest != null && rest.factor() == 1 && rest.dimension() != Dimension.TEMPERATURE;
    return scalable && power != null ? new Scaled(rest, power) : null;
  }

  private Quantity quantity(BigDecimal value, Scaled scaled) {
    Unit unit = scaled.unit();
    if (expected != null && unit.dimension() != expected) {
      throw new IllegalArgumentException(
          "expected a " + expected.word() + " such as " + expected.example() + ": " + text);
    }
    BigDecimal si =
        value.scaleByPowerOfTen(scaled.power()).multiply(BigDecimal.valueOf(unit.factor()));
    return new Quantity(si.doubleValue(), unit.dimension());
  }

  private BigDecimal decimal(String number) {
    int comma = number.indexOf(',');
    if (comma >= 0) {
      String after = number.substring(comma + 1);
      boolean threeDigits = after.matches("\\d{3}");
      if (threeDigits && !number.substring(0, comma).matches("[+-]?0?")) {
        throw wrong(
            "comma may be a decimal comma or part a thousand: write %s or %s"
                .formatted(number.replace(',', '.'), number.replace(",", "")));
      }
    }
    return new BigDecimal(number.replace(',', '.'));
  }

  private static String plain(String text) {
    return text.replace('\u00a0', ' ')
        .replace('\u202f', ' ')
        .replace('\u2009', ' ')
        .replace('\u2212', '-')
        .replace('\u03bc', '\u00b5')
        .replace('\u03a9', '\u2126')
        .replace("\u2103", "\u00b0C")
        .strip();
  }

  private static String lower(char letter) {
    return String.valueOf(letter).toLowerCase(Locale.ROOT);
  }

  private String such() {
    return expected == null
        ? ", for example 0.452 V or 4.7 k\u2126"
        : ", for example " + expected.example();
  }

  private IllegalArgumentException unknownUnit(String unit) {
    return wrong("unit '" + unit + "' is not known" + such());
  }

  private IllegalArgumentException wrong(String rule) {
    String shown = text.length() > MAX_LENGTH ? text.substring(0, MAX_LENGTH) + "..." : text;
    return new IllegalArgumentException(rule + ": " + shown);
  }
}
