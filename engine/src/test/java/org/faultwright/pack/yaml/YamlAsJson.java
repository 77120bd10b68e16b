package org.faultwright.pack.yaml;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.BigInteger;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;

/**
 * A YAML tree as an editor hands it to a JSON Schema validator: scalars by the core schema of YAML
 * 1.2.2, section 10.3.2.
 */
public final class YamlAsJson {

  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private YamlAsJson() {}

  /** The same tree in JSON. */
  public static JsonNode of(YamlNode node) {
    if (node instanceof YamlMap map) {
      ObjectNode object = JSON.objectNode();
      map.entries().forEach(e -> object.set(e.name(), of(e.value())));
      return object;
    } else if (node instanceof YamlList list) {
      ArrayNode array = JSON.arrayNode();
      list.items().forEach(i -> array.add(of(i)));
      return array;
    }
    return scalar((YamlScalar) node);
  }

  private static JsonNode scalar(YamlScalar s) {
    String text = s.text();
    if (!s.plain()) {
      return JSON.textNode(text);
    } else if (text.matches("null|Null|NULL|~|")) {
      return JSON.nullNode();
    } else if (text.matches("true|True|TRUE|false|False|FALSE")) {
      return JSON.booleanNode(text.equalsIgnoreCase("true"));
    } else if (text.matches("[-+]?[0-9]+")) {
      return JSON.numberNode(new BigInteger(text));
    } else if (text.matches("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]{1,3})?")) {
      return JSON.numberNode(new BigDecimal(text));
    }
    return JSON.textNode(text);
  }
}
