package org.faultwright.pack.reader;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Quantities;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Span;

/** Where readings lie: a value with a tolerance, limits, or over-range. */
final class References {

  /** A reference as written, before its tolerance and the kind of quantity are known. */
  sealed interface Written {

    /** A value, or {@code OL}. */
    record Value(YamlScalar text) implements Written {}

    /** What some known-good devices read. */
    record Samples(List<Quantity> of, Span at) implements Written {}

    /** Limits. */
    record Limits(Optional<Quantity> low, Optional<Quantity> high, Span at) implements Written {}
  }

  private static final Key<Quantity> LOW = Key.optional("low", Quantities.ANY, "the lower limit");
  private static final Key<Quantity> HIGH = Key.optional("high", Quantities.ANY, "the upper limit");

  private static final Key<List<Quantity>> SAMPLES =
      Key.optional(
          "samples",
          Forms.list(Quantities.ANY),
          "what some known-good devices read, one reading each: [0.452 V, 0.449 V, 0.456 V]");

  /** A reference. */
  static final Form<Written> FORM =
      Forms.scalarOr(
          Forms.scalar(
              "a value with a unit, OL, or limits",
              new Shape.Text(),
              (s, scope) -> Optional.of(new Written.Value(s))),
          Forms.built(
              Block.of("limits", LOW, HIGH, SAMPLES).atLeastOneOf(LOW, HIGH, SAMPLES),
              References::limits));

  /** The tolerance of a value: a part of it, or a value with a unit. */
  static final Key<YamlScalar> TOLERANCE =
      Key.optional(
          "tolerance",
          Forms.scalar(
              "a tolerance such as 8 % or 0.05 V", new Shape.Text(), (s, scope) -> Optional.of(s)),
          "half-width around the value: 8 % or 0.05 V, or a factor either way: x3; about 95 of 100"
              + " good devices lie within");

  private static final Pattern FACTOR = Pattern.compile("x(\\d{1,6}(?:\\.\\d{1,6})?)");

  private References() {}

  private static Optional<Written> limits(Fields f) {
    Optional<Quantity> low = f.get(LOW);
    Optional<Quantity> high = f.get(HIGH);
    if (f.wrote(SAMPLES)) {
      if (f.wrote(LOW) || f.wrote(HIGH)) {
        f.scope()
            .error(
                FormatRule.KEY_NOT_NEEDED,
                f.keyAt(SAMPLES),
                "'samples' stands beside a limit in " + f.scope().owner(),
                "write either what known-good devices read, or limits");
        return Optional.empty();
      }
      return f.get(SAMPLES).flatMap(samples -> samples(samples, f));
    }
    if (!f.complete() || f.spoilt(LOW) || f.spoilt(HIGH)) {
      return Optional.empty();
    }
    if (low.isPresent() && high.isPresent()) {
      if (low.get().dimension() != high.get().dimension()) {
        wrongKind(f.at(HIGH), low.get().dimension(), high.get().dimension(), f.scope().at("high"));
        return Optional.empty();
      }
      if (low.get().si() >= high.get().si()) {
        f.scope()
            .error(
                FormatRule.BAD_LIMITS,
                f.at(HIGH),
                "the upper limit must be above the lower one: " + low.get() + " to " + high.get(),
                "write the lower one under \'low\' and the upper one under \'high\'");
        return Optional.empty();
      }
    }
    return Optional.of(new Written.Limits(low, high, f.at()));
  }

  private static Optional<Written> samples(List<Quantity> samples, Fields f) {
    long different = samples.stream().map(Quantity::si).distinct().count();
    if (different < 2) {
      f.scope()
          .error(
              FormatRule.BAD_LIMITS,
              f.at(SAMPLES),
              "the samples of " + f.scope().owner() + " do not say how far good devices differ",
              "give readings of two or more devices that differ, or a value with its tolerance");
      return Optional.empty();
    }
    for (Quantity sample : samples) {
      if (sample.dimension() != samples.get(0).dimension()) {
        wrongKind(
            f.at(SAMPLES),
            samples.get(0).dimension(),
            sample.dimension(),
            f.scope().at(SAMPLES.name()));
        return Optional.empty();
      }
    }
    return Optional.of(new Written.Samples(samples, f.at()));
  }

  private static void wrongKind(Span at, Dimension wanted, Dimension found, Scope scope) {
    scope.error(
        FormatRule.WRONG_UNIT,
        at,
        "'"
            + scope.key()
            + "' of "
            + scope.owner()
            + " must be a "
            + wanted.word()
            + ", in "
            + wanted.unit()
            + ", and here is a "
            + found.word(),
        "write it as in " + wanted.example());
  }

  /** What kind of quantity a reference is, as far as its text says. */
  static Optional<Dimension> kind(YamlNode reference) {
    if (reference instanceof YamlScalar s) {
      try {
        return Optional.of(Quantity.parse(s.text()).dimension());
      } catch (IllegalArgumentException e) {
        return Optional.empty();
      }
    } else if (reference instanceof YamlMap map) {
      return map.value("low")
          .or(() -> map.value("high"))
          .or(
              () ->
                  map.value(SAMPLES.name())
                      .filter(YamlList.class::isInstance)
                      .flatMap(list -> ((YamlList) list).items().stream().findFirst()))
          .filter(YamlScalar.class::isInstance)
          .flatMap(References::kind);
    }
    return Optional.empty();
  }

  /**
   * The reference.
   *
   * @param kinds the kind of quantity where it is known: a value of another kind is a problem;
   *     over-range takes the first of them, or else a voltage: in diode mode {@code OL} is one
   * @param f the block that it stands in
   */
  static Optional<Reference> of(Written written, Key<?> key, Optional<Dimension> kind, Fields f) {
    Scope scope = f.scope().at(key.name());
    Optional<YamlScalar> tolerance = f.get(TOLERANCE);
    if (written instanceof Written.Value v && !ReadingValue.isOverRange(v.text().text())) {
      return around(v.text(), tolerance, kind, f, scope);
    }
    if (tolerance.isPresent()) {
      scope.error(
          FormatRule.KEY_NOT_NEEDED,
          f.keyAt(TOLERANCE),
          "'tolerance' goes with a single value, and '"
              + key.name()
              + "' of "
              + scope.owner()
              + " is none",
          "remove it");
      return Optional.empty();
    }
    if (written instanceof Written.Samples s) {
      Dimension found = s.of().get(0).dimension();
      if (kind.isPresent() && kind.get() != found) {
        wrongKind(s.at(), kind.get(), found, scope);
        return Optional.empty();
      }
      return Optional.of(
          Reference.Around.predicting(found, s.of().stream().map(Quantity::si).toList()));
    }
    if (written instanceof Written.Limits l) {
      Dimension found = l.low().or(l::high).orElseThrow().dimension();
      if (kind.isPresent() && kind.get() != found) {
        wrongKind(l.at(), kind.get(), found, scope);
        return Optional.empty();
      }
      return Optional.of(new Reference.Within(found, si(l.low()), si(l.high())));
    }
    return Optional.of(new Reference.OverRange(kind.orElse(Dimension.VOLTAGE)));
  }

  private static OptionalDouble si(Optional<Quantity> q) {
    return q.map(x -> OptionalDouble.of(x.si())).orElse(OptionalDouble.empty());
  }

  private static Optional<Reference> around(
      YamlScalar text,
      Optional<YamlScalar> tolerance,
      Optional<Dimension> kind,
      Fields f,
      Scope scope) {
    Optional<Quantity> nominal =
        kind.isPresent() ? Quantities.of(text, kind.get(), scope) : Quantities.any(text, scope);
    if (tolerance.isEmpty() && !f.wrote(TOLERANCE)) {
      scope.error(
          FormatRule.MISSING_BESIDE,
          text.at(),
          "'tolerance' is missing beside '" + scope.key() + "' of " + scope.owner(),
          "add 'tolerance:', " + TOLERANCE.doc());
    }
    if (nominal.isEmpty() || tolerance.isEmpty()) {
      return Optional.empty();
    }
    YamlScalar written = tolerance.get();
    Scope inTolerance = scope.at(TOLERANCE.name());
    Matcher factor = FACTOR.matcher(written.text().strip());
    if (factor.matches()) {
      double by = Double.parseDouble(factor.group(1));
      if (by <= 1 || nominal.get().si() <= 0) {
        scope.error(
            FormatRule.BAD_LIMITS,
            written.at(),
            "a tolerance by a factor must be above x1, of a value above 0: " + written.text(),
            "write it as x3 for a third to three times the value");
        return Optional.empty();
      }
      return Optional.of(
          Reference.Within.ofFactor(nominal.get().dimension(), nominal.get().si(), by));
    }
    Optional<Double> half =
        Chances.percent(written.text())
            .map(p -> p.doubleValue() * Math.abs(nominal.get().si()))
            .or(
                () ->
                    Quantities.of(written, nominal.get().dimension(), inTolerance)
                        .map(Quantity::si));
    if (half.isPresent() && half.get() <= 0) {
      scope.error(
          FormatRule.BAD_LIMITS,
          written.at(),
          "the tolerance of " + scope.owner() + " must be above 0: " + written.text(),
          "write it as a value with a unit, such as 0.05 V");
      return Optional.empty();
    }
    return half.map(h -> new Reference.Around(nominal.get().dimension(), nominal.get().si(), h));
  }

  /** The kind of quantity of the first of several references that says it. */
  static Optional<Dimension> firstKind(List<YamlNode> references) {
    return references.stream().map(References::kind).flatMap(Optional::stream).findFirst();
  }
}
