package org.faultwright.pack.reader;

import java.util.Map;
import java.util.Optional;
import org.faultwright.measurement.Quantity;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.PointId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Fields;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.FormatRule;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Quantities;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** A step that compares two points. */
final class Comparing {

  private static final Key<PointId> POINT =
      Key.required("point", Ids.ref(Kind.POINT, PointId::new), "the point");
  private static final Key<PointId> WITH =
      Key.required("with", Ids.ref(Kind.POINT, PointId::new), "the point to compare it with");
  private static final Key<YamlScalar> DIFFERS_BY =
      Key.required(
          "differs-by",
          Forms.scalar(
              "a value with a unit, or a percentage", new Shape.Text(), (s, x) -> Optional.of(s)),
          "5 % of the reference or 0.02 V: about 95 of 100 good devices differ by less");
  private static final Key<Map<NodeId, Chance>> POINTS_TO =
      Key.required("points-to", Inputs.FORM, "what makes them differ");

  /** A comparison, and what it shows. */
  record Compared(Comparison comparison, Observation shows) {}

  static final Form<Compared> FORM =
      Forms.built(
          Block.of("compare", POINT, WITH, DIFFERS_BY, POINTS_TO).withBasis(), Comparing::compared);

  private Comparing() {}

  private static Optional<Compared> compared(Fields f) {
    if (!f.complete()) {
      return Optional.empty();
    }
    YamlScalar written = f.need(DIFFERS_BY);
    Optional<Double> part = Chances.percent(written.text()).map(p -> p.doubleValue());
    Optional<Double> halfWidth =
        part.isPresent()
            ? part
            : Quantities.any(written, f.scope().at(DIFFERS_BY.name())).map(Quantity::si);
    if (halfWidth.isPresent() && halfWidth.get() <= 0) {
      f.scope()
          .error(
              FormatRule.BAD_LIMITS,
              written.at(),
              "'differs-by' of " + f.scope().owner() + " must be above 0: " + written.text(),
              "write it as a part of the reference such as 5 %, or a value such as 0.02 V");
      return Optional.empty();
    }
    return halfWidth.map(
        by ->
            new Compared(
                new Comparison(f.need(POINT), f.need(WITH), by, part.isPresent()),
                Comparison.toTheEye(f.need(POINTS_TO))));
  }
}
