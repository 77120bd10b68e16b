package org.faultwright.pack.format;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.faultwright.pack.Effort;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** Forms of numbers other than probabilities and quantities. */
public final class Numbers {

  /** A number as authors write it. */
  static final String DECIMAL = "[0-9]+(?:\\.[0-9]+)?|\\.[0-9]+";

  /** What stands before a number that is not 0. */
  static final String NOT_ZERO = "(?!0*(\\.0*)?$)";

  private static final Pattern NUMBER = Pattern.compile(DECIMAL);
  private static final Pattern FACTOR = Pattern.compile("x ?(" + DECIMAL + ")");
  private static final Pattern TIME = Pattern.compile("(" + DECIMAL + ") ?(s|min|h|d)");

  /** More digits than anybody needs; more would take time. */
  private static final int LONGEST = 18;

  private static final Map<String, Long> MILLIS =
      Map.of("s", 1_000L, "min", 60_000L, "h", 3_600_000L, "d", 86_400_000L);

  private static final String AS_MONEY = "an amount of money is a bare number, as in 12.50";

  /** Money: a number, in the shop's currency. */
  public static final Form<Double> MONEY =
      Forms.scalar(
          "an amount of money",
          new Shape.Number(false, false),
          (s, scope) -> number(s, scope, "a number, not below 0", AS_MONEY));

  /** Money that is never nothing. */
  public static final Form<Double> MONEY_ABOVE_ZERO =
      Forms.scalar(
          "an amount of money above 0",
          new Shape.Number(false, true),
          (s, scope) -> {
            String what = "a number above 0";
            Optional<Double> amount = number(s, scope, what, AS_MONEY);
            if (amount.filter(a -> a == 0).isPresent()) {
              bad(FormatRule.BAD_NUMBER, s, scope, what, AS_MONEY);
              return Optional.empty();
            }
            return amount;
          });

  /** How many: a whole number from 0. */
  public static final Form<Integer> COUNT =
      Forms.scalar("a whole number", new Shape.Number(true, false), Numbers::whole);

  /** A factor, as in x8. */
  public static final Form<BigDecimal> FACTOR_FORM =
      Forms.scalar(
          "a factor such as x8",
          new Shape.Pattern("x ?" + NOT_ZERO + "(" + DECIMAL + ")", false),
          Numbers::factor);

  /** None, or how many expanded uncertainties a guard band is wide. */
  public static final Form<Double> GUARD_FACTOR =
      Forms.scalar(
          "none, or a factor such as 1",
          new Shape.Pattern("none|" + DECIMAL, true),
          Numbers::guardFactor);

  /** A time; a bare number is minutes. */
  public static final Form<Duration> TIME_FORM =
      Forms.scalar(
          "a time such as 2 min",
          new Shape.Pattern("(" + DECIMAL + ") ?(s|min|h|d)", true),
          Numbers::time);

  private static final Key<Duration> HANDS =
      Key.optional("hands", TIME_FORM, "time with hands on the device");
  private static final Key<Duration> WAIT = Key.optional("wait", TIME_FORM, "time spent waiting");

  /** Time that something takes: hands only, or hands and waiting. */
  public static final Form<Effort> EFFORT =
      Forms.scalarOr(
          TIME_FORM.as(t -> new Effort(t, Duration.ZERO)),
          Forms.built(
              Block.of("effort", HANDS, WAIT).atLeastOneOf(HANDS, WAIT),
              f ->
                  Optional.of(
                      new Effort(
                          f.get(HANDS).orElse(Duration.ZERO), f.get(WAIT).orElse(Duration.ZERO)))));

  private Numbers() {}

  /** The number that a scalar is, as written. */
  static Optional<BigDecimal> decimal(String text) {
    return text.length() <= LONGEST && NUMBER.matcher(text).matches()
        ? Optional.of(new BigDecimal(text))
        : Optional.empty();
  }

  private static Optional<Double> number(YamlScalar s, Scope scope, String what, String wayOut) {
    Optional<BigDecimal> value = decimal(s.text());
    if (value.isEmpty()) {
      bad(FormatRule.BAD_NUMBER, s, scope, what, wayOut);
    }
    return value.map(BigDecimal::doubleValue);
  }

  private static Optional<Integer> whole(YamlScalar s, Scope scope) {
    if (!s.text().matches("[0-9]{1,9}")) {
      bad(
          FormatRule.BAD_NUMBER,
          s,
          scope,
          "a whole number, not below 0",
          "write 0, 1, 2 and so on");
      return Optional.empty();
    }
    return Optional.of(Integer.parseInt(s.text()));
  }

  private static Optional<BigDecimal> factor(YamlScalar s, Scope scope) {
    Matcher m = FACTOR.matcher(s.text());
    Optional<BigDecimal> value =
        m.matches() ? decimal(m.group(1)).filter(v -> v.signum() > 0) : Optional.empty();
    if (value.isEmpty()) {
      String way =
          decimal(s.text()).isPresent() ? "write x" + s.text() : "x8 means: 8 times the odds";
      bad(FormatRule.BAD_FACTOR, s, scope, "a factor above 0, such as x8", way);
    }
    return value;
  }

  private static Optional<Double> guardFactor(YamlScalar s, Scope scope) {
    if (s.text().equals("none")) {
      return Optional.of(0.0);
    }
    Optional<BigDecimal> factor =
        decimal(s.text()).filter(f -> f.compareTo(WIDEST_GUARD_BAND) <= 0);
    if (factor.isEmpty()) {
      bad(
          FormatRule.BAD_NUMBER,
          s,
          scope,
          "none, or a number from 0 to " + WIDEST_GUARD_BAND,
          "1 asks for one expanded uncertainty inside each limit, none for nothing");
    }
    return factor.map(BigDecimal::doubleValue);
  }

  private static Optional<Duration> time(YamlScalar s, Scope scope) {
    Matcher m = TIME.matcher(s.text());
    Optional<BigDecimal> number = decimal(m.matches() ? m.group(1) : s.text());
    if (number.isEmpty() || number.get().compareTo(MOST) > 0) {
      bad(
          FormatRule.BAD_TIME,
          s,
          scope,
          "a time",
          "write 30 s, 2 min, 1 h or 2 d; a bare number is minutes");
      return Optional.empty();
    }
    long unit = MILLIS.get(m.matches() ? m.group(2) : "min");
    return Optional.of(
        Duration.ofMillis(number.get().multiply(BigDecimal.valueOf(unit)).longValue()));
  }

  /** A wider one refuses all that a meter can read. */
  private static final BigDecimal WIDEST_GUARD_BAND = BigDecimal.TEN;

  private static final BigDecimal MOST = BigDecimal.valueOf(1_000_000);

  static void bad(FormatRule rule, YamlNode node, Scope scope, String what, String wayOut) {
    scope.error(
        rule,
        node.at(),
        "'" + scope.key() + "' of " + scope.owner() + " must be " + what + ": " + node.word(),
        wayOut);
  }
}
