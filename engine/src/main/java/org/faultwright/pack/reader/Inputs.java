package org.faultwright.pack.reader;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/** Inputs of an event or a state: a list of ids, or a map from ids to strengths. */
final class Inputs {

  private static final Form<Map<NodeId, Chance>> LIST =
      Forms.set(Ids.NODE).as(Inputs::withStrengthOne);

  private static final Form<Map<NodeId, Chance>> MAP = Ids.map(Ids::node, Chances.chance(1));

  private static final Form<Map<NodeId, Chance>> EITHER =
      new Form<>() {
        @Override
        public Optional<Map<NodeId, Chance>> read(YamlNode node, Scope scope) {
          if (node instanceof YamlScalar) {
            Forms.wrongType(node, scope, "a list of ids, or ids with strengths");
            return Optional.empty();
          }
          return (node instanceof YamlNode.YamlList ? LIST : MAP).read(node, scope);
        }

        @Override
        public Shape shape() {
          return new Shape.Either(List.of(LIST.shape(), MAP.shape()));
        }
      };

  /** The form of inputs; one at least. */
  static final Form<Map<NodeId, Chance>> FORM = Forms.some(EITHER);

  private Inputs() {}

  private static Map<NodeId, Chance> withStrengthOne(Set<NodeId> ids) {
    Map<NodeId, Chance> inputs = new LinkedHashMap<>();
    ids.forEach(id -> inputs.put(id, Chance.byDefinition(1)));
    return inputs;
  }
}
