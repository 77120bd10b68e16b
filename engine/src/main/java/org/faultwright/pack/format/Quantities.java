package org.faultwright.pack.format;

import java.util.Optional;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** Forms of values with a unit. */
public final class Quantities {

  private static final Shape SHAPE = new Shape.Text();

  /** A value with a unit, of whatever kind. */
  public static final Form<Quantity> ANY =
      Forms.scalar("a value with a unit such as 0.452 V", SHAPE, Quantities::any);

  /** A voltage. */
  public static final Form<Quantity> VOLTAGE =
      Forms.scalar("a voltage", SHAPE, (s, scope) -> of(s, Dimension.VOLTAGE, scope));

  private Quantities() {}

  /** A value of whatever kind. */
  public static Optional<Quantity> any(YamlScalar s, Scope scope) {
    return any(s, scope, Dimension.VOLTAGE);
  }

  private static Optional<Quantity> any(YamlScalar s, Scope scope, Dimension example) {
    try {
      return Optional.of(Quantity.parse(s.text()));
    } catch (IllegalArgumentException e) {
      scope.error(
          FormatRule.BAD_QUANTITY,
          s.at(),
          "'" + scope.key() + "' of " + scope.owner() + ": " + e.getMessage(),
          "write a value with its unit, such as " + example.example());
      return Optional.empty();
    }
  }

  /** A value of one kind. */
  public static Optional<Quantity> of(YamlScalar s, Dimension kind, Scope scope) {
    Optional<Quantity> any = any(s, scope, kind);
    if (any.isPresent() && any.get().dimension() != kind) {
      scope.error(
          FormatRule.WRONG_UNIT,
          s.at(),
          "'"
              + scope.key()
              + "' of "
              + scope.owner()
              + " must be a "
              + kind.word()
              + ", in "
              + kind.unit()
              + ", and here is a "
              + any.get().dimension().word()
              + ": "
              + s.text(),
          "write it as in " + kind.example());
      return Optional.empty();
    }
    return any;
  }
}
