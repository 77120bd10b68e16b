package org.faultwright.pack.reader;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.format.Chances;
import org.faultwright.pack.format.Form;
import org.faultwright.pack.format.Forms;
import org.faultwright.pack.format.Ids;
import org.faultwright.pack.format.Scope;
import org.faultwright.pack.format.Shape;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;

/** Inputs of an event or a state: a list of ids, or a map from ids to strengths. */
final class Inputs {

  private static final Form<List<NodeId>> LIST = Forms.list(Ids.NODE);

  private static final Form<java.util.Set<NodeId>> SET = Forms.set(Ids.NODE);

  private static final Form<Map<NodeId, Chance>> MAP = Ids.map(Ids::node, Chances.chance(1));

  /** The form of inputs; one at least. */
  static final Form<Map<NodeId, Chance>> FORM =
      new Form<>() {
        @Override
        public Optional<Map<NodeId, Chance>> read(YamlNode node, Scope scope) {
          Optional<Map<NodeId, Chance>> inputs;
          if (node instanceof YamlList) {
            inputs = SET.read(node, scope).map(Inputs::plain);
          } else if (node instanceof YamlMap) {
            inputs = MAP.read(node, scope);
          } else {
            Forms.wrongType(node, scope, "a list of ids, or ids with strengths");
            return Optional.empty();
          }
          return inputs;
        }

        @Override
        public Shape shape() {
          return new Shape.Either(List.of(LIST.shape(), MAP.shape()));
        }
      };

  private Inputs() {}

  private static Map<NodeId, Chance> plain(java.util.Set<NodeId> ids) {
    Map<NodeId, Chance> inputs = new LinkedHashMap<>();
    ids.forEach(id -> inputs.put(id, Chance.byDefinition(1)));
    return inputs;
  }
}
