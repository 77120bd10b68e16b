package org.faultwright.pack.format;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.faultwright.pack.Basis;
import org.faultwright.pack.Chance;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Span;

/** Forms of probabilities. */
public final class Chances {

  private static final String PERCENT = "(" + Numbers.DECIMAL + ") ?%";
  private static final Pattern PERCENTAGE = Pattern.compile(PERCENT);

  /** What the short form may look like. */
  public static final Shape SHAPE = new Shape.Pattern(PERCENT, true);

  private static final Form<YamlScalar> AS_WRITTEN =
      Forms.scalar("a probability such as 35 % or 0.35", SHAPE, (s, scope) -> Optional.of(s));

  /** The number of the long form. */
  static final Key<YamlScalar> CHANCE =
      Key.required("chance", AS_WRITTEN, "the probability, such as 35 % or 0.35");

  /** Why it is exactly 0 or 1. */
  static final Key<String> WHY =
      Key.optional("why", Forms.TEXT, "why it is exactly 0 or 1, or anything worth knowing");

  /** The long form, with a basis of its own. */
  public static final Block LONG = Block.of("chance", CHANCE, WHY).withBasis();

  private Chances() {}

  /** A probability; exactly 0 or 1 only with a reason, but for the numbers given: its default. */
  public static Form<Stated> stated(Integer... defaults) {
    Set<Integer> free = Set.of(defaults);
    return new Form<>() {
      @Override
      public Optional<Stated> read(YamlNode node, Scope scope) {
        return node instanceof YamlScalar s
            ? stated(s, scope, Optional.empty(), free)
            : LONG.read(node, scope).flatMap(f -> fromLong(f, scope, free));
      }

      @Override
      public Shape shape() {
        return new Shape.Either(List.of(SHAPE, LONG.shape()));
      }
    };
  }

  /** A probability, as in {@link #stated}. */
  public static Form<Chance> chance(Integer... defaults) {
    return stated(defaults).as(Stated::chance);
  }

  /** The probability of a long form that may have more keys. */
  public static Optional<Stated> fromLong(Fields f, Scope outside) {
    return fromLong(f, outside, Set.of());
  }

  private static Optional<Stated> fromLong(Fields f, Scope outside, Set<Integer> free) {
    if (!f.complete()) {
      return Optional.empty();
    }
    return stated(f.need(CHANCE), f.scope().at(outside.key()), f.get(WHY), free);
  }

  private static Optional<Stated> stated(
      YamlScalar s, Scope scope, Optional<String> why, Set<Integer> free) {
    Optional<BigDecimal> read = decimal(s, scope);
    if (read.isEmpty()) {
      return Optional.empty();
    }
    BigDecimal p = read.get();
    if (p.compareTo(BigDecimal.ONE) > 0) {
      scope.error(
          FormatRule.CHANCE_OUT_OF_RANGE,
          s.at(),
          "'"
              + scope.key()
              + "' of "
              + scope.owner()
              + " must be between 0 % and 100 %: "
              + s.word(),
          s.text().contains("%") || p.compareTo(BigDecimal.valueOf(100)) > 0
              ? "write at most 100 %"
              : "did you mean " + s.text() + " %?");
      return Optional.empty();
    }
    boolean certain = p.signum() == 0 || p.compareTo(BigDecimal.ONE) == 0;
    if (certain && why.isEmpty() && !free.contains(p.intValue())) {
      String word = p.signum() == 0 ? "never" : "always";
      scope.error(
          FormatRule.CERTAIN_WITHOUT_WHY,
          s.at(),
          "'"
              + scope.key()
              + "' of "
              + scope.owner()
              + " is exactly "
              + s.text()
              + ", which no fact can ever change",
          "write a number that allows for surprises, or say why it is "
              + word
              + ": {chance: "
              + s.text()
              + ", why: \"...\"}");
      return Optional.empty();
    }
    boolean byDefault = certain && why.isEmpty();
    Basis basis =
        byDefault && scope.basis().isEmpty()
            ? new Basis.ByDefinition()
            : BasisForm.needed(scope, s.at());
    return Optional.of(new Stated(p, new Chance(p.doubleValue(), basis, why), s.at()));
  }

  private static Optional<BigDecimal> decimal(YamlScalar s, Scope scope) {
    Matcher m = PERCENTAGE.matcher(s.text());
    Optional<BigDecimal> number =
        m.matches()
            ? Numbers.decimal(m.group(1)).map(d -> d.movePointLeft(2))
            : Numbers.decimal(s.text());
    if (number.isEmpty()) {
      boolean comma = s.text().matches("[0-9]+,[0-9]+ ?%?");
      Numbers.bad(
          FormatRule.BAD_CHANCE,
          s,
          scope,
          "a probability",
          comma
              ? "write a point for the comma: " + s.text().replace(',', '.')
              : "write 35 % or 0.35");
    }
    return number;
  }

  /** A probability that rests on no evidence, 0 and 1 allowed: a setting, or an expectation. */
  public static final Form<Double> PLAIN =
      Forms.scalar(
          "a probability such as 35 % or 0.35",
          SHAPE,
          (s, scope) ->
              stated(s, scope.on(Optional.of(new Basis.ByDefinition())), Optional.of(""), Set.of())
                  .map(x -> x.chance().p()));

  /** A number such as 8 %, as a part of 1; empty when it is not written with a percent sign. */
  public static Optional<BigDecimal> percent(String text) {
    Matcher m = PERCENTAGE.matcher(text);
    return m.matches()
        ? Numbers.decimal(m.group(1)).map(d -> d.movePointLeft(2))
        : Optional.empty();
  }

  /** Where a row begins and what it sums to: it must be 1, on decimals as written. */
  public static boolean sumsToOne(List<Stated> row, String what, Span at, Scope scope) {
    BigDecimal sum = row.stream().map(Stated::decimal).reduce(BigDecimal.ZERO, BigDecimal::add);
    if (sum.compareTo(BigDecimal.ONE) == 0) {
      return true;
    }
    BigDecimal off = sum.subtract(BigDecimal.ONE);
    scope.error(
        FormatRule.ROW_SUM,
        at,
        what + " of " + scope.owner() + " must sum to 100 %: " + percentOf(sum),
        (off.signum() > 0 ? "take away " : "add ") + percentOf(off.abs()));
    return false;
  }

  /** A part of 1 as a percentage, for messages. */
  public static String percentOf(BigDecimal part) {
    return part.movePointRight(2).stripTrailingZeros().toPlainString() + " %";
  }
}
