package org.faultwright.pack.reader;

import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.format.Block;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Key;
import org.faultwright.pack.format.Kind;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** What a step can show that is read and checked, but not yet used in a diagnosis. */
final class NotYet {

  private static final Key<PointId> POINT =
      Key.required("point", Ids.ref(Kind.POINT, PointId::new), "the point");
  private static final Key<PointId> WITH =
      Key.required("with", Ids.ref(Kind.POINT, PointId::new), "the point to compare it with");
  private static final Key<YamlScalar> DIFFERS_BY =
      Key.required(
          "differs-by",
          Forms.scalar(
              "a value with a unit, or a percentage", new Shape.Text(), (s, x) -> Optional.of(s)),
          "the difference that counts, such as 5 % or 0.02 V");
  private static final Key<Map<NodeId, Chance>> POINTS_TO =
      Key.required("points-to", Inputs.FORM, "what a difference points to");

  /** A comparison of two points; the text says what is not yet used. */
  static final Form<String> COMPARE =
      Forms.built(
          Block.of("compare", POINT, WITH, DIFFERS_BY, POINTS_TO).withBasis(),
          f ->
              f.complete()
                  ? Optional.of(
                      "comparing point '" + f.need(POINT) + "' with '" + f.need(WITH) + "'")
                  : Optional.empty());

  private NotYet() {}
}
