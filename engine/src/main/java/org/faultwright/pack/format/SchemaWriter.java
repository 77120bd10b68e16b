package org.faultwright.pack.format;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.faultwright.pack.Id;

/**
 * Writes the JSON Schema (draft 2020-12) of a shape, for editors: they complete keys and mark slips
 * while an author types. It sees the form only; what ids mean and what numbers sum to is seen by
 * the reader.
 */
public final class SchemaWriter {

  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  private final Map<String, ObjectNode> definitions = new TreeMap<>();

  private SchemaWriter() {}

  /** The schema of a file, as text. */
  public static String write(String title, Shape shape) {
    SchemaWriter writer = new SchemaWriter();
    ObjectNode root = JSON.objectNode();
    root.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    root.put("title", title);
    root.setAll(writer.of(shape));
    ObjectNode defs = root.putObject("$defs");
    writer.definitions.forEach(defs::set);
    DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
    printer.indentArraysWith(DefaultPrettyPrinter.FixedSpaceIndenter.instance);
    printer.indentObjectsWith(new DefaultIndenter("  ", "\n"));
    try {
      return new ObjectMapper().writer(printer).writeValueAsString(root) + "\n";
    } catch (JsonProcessingException e) {
      throw new AssertionError("a tree of plain nodes can be written", e);
    }
  }

  private ObjectNode of(Shape shape) {
    if (shape instanceof Shape.Text) {
      ObjectNode any = JSON.objectNode();
      any.putArray("type").add("string").add("number").add("boolean");
      return any;
    } else if (shape instanceof Shape.Pattern p) {
      return pattern(p);
    } else if (shape instanceof Shape.Number n) {
      return number(n);
    } else if (shape instanceof Shape.Words w) {
      return words(w.words());
    } else if (shape instanceof Shape.YesNo) {
      ObjectNode yesNo = JSON.objectNode();
      yesNo.putArray("enum").add("yes").add("no").add(true).add(false);
      return yesNo;
    } else if (shape instanceof Shape.Either e) {
      return anyOf(e.shapes().stream().map(this::of).toList());
    } else if (shape instanceof Shape.ListOf l) {
      ObjectNode list = JSON.objectNode().put("type", "array");
      list.set("items", of(l.item()));
      return l.least() > 0 ? list.put("minItems", l.least()) : list;
    } else if (shape instanceof Shape.MapOf m) {
      ObjectNode map = JSON.objectNode().put("type", "object");
      map.set("propertyNames", text(Ids.SPELLING).put("maxLength", Id.MAX_LENGTH));
      map.set("additionalProperties", of(m.values()));
      return m.least() > 0 ? map.put("minProperties", m.least()) : map;
    } else if (shape instanceof Shape.Named n) {
      return named(n);
    }
    return fields((Shape.Fields) shape);
  }

  private ObjectNode named(Shape.Named n) {
    if (!definitions.containsKey(n.name())) {
      definitions.put(n.name(), JSON.objectNode()); // It may contain itself.
      definitions.get(n.name()).setAll(of(n.shape().get()));
    }
    return JSON.objectNode().put("$ref", "#/$defs/" + n.name());
  }

  private static ObjectNode pattern(Shape.Pattern p) {
    ObjectNode bare =
        p.number()
            ? JSON.objectNode().put("type", "number").put("minimum", 0)
            : JSON.objectNode().put("type", "integer").put("minimum", 0);
    if (p.number()) {
      return anyOf(List.of(bare, text(p.regex() + "|" + Numbers.DECIMAL)));
    }
    ObjectNode text = text(p.regex());
    if (!p.regex().equals(Ids.SPELLING)) {
      return text;
    }
    return anyOf(List.of(text.put("maxLength", Id.MAX_LENGTH), bare));
  }

  private static ObjectNode text(String regex) {
    return JSON.objectNode().put("type", "string").put("pattern", "^(?:" + regex + ")$");
  }

  private static ObjectNode number(Shape.Number n) {
    ObjectNode number =
        JSON.objectNode()
            .put("type", n.whole() ? "integer" : "number")
            .put(n.aboveZero() ? "exclusiveMinimum" : "minimum", 0);
    String digits = n.whole() ? "[0-9]+" : Numbers.DECIMAL;
    return anyOf(
        List.of(number, text(n.aboveZero() ? Numbers.NOT_ZERO + "(" + digits + ")" : digits)));
  }

  private static ObjectNode words(List<String> words) {
    ObjectNode some = JSON.objectNode();
    ArrayNode all = some.putArray("enum");
    for (String word : words) {
      all.add(word);
      if (word.matches("[0-9]+")) {
        all.add(Integer.parseInt(word));
      }
    }
    return some;
  }

  private static ObjectNode anyOf(List<ObjectNode> ways) {
    ObjectNode some = JSON.objectNode();
    some.putArray("anyOf").addAll(ways);
    return some;
  }

  private ObjectNode fields(Shape.Fields f) {
    ObjectNode block = JSON.objectNode().put("type", "object");
    ObjectNode properties = block.putObject("properties");
    List<String> required = new ArrayList<>();
    for (Shape.Field field : f.fields()) {
      ObjectNode value = of(field.shape());
      properties.set(field.name(), value.put("description", field.doc()));
      if (field.required()) {
        required.add(field.name());
      }
    }
    if (!required.isEmpty()) {
      ArrayNode names = block.putArray("required");
      required.forEach(names::add);
    }
    block.put("additionalProperties", false);
    ArrayNode choices = JSON.arrayNode();
    f.exactlyOne().forEach(g -> choices.addObject().set("oneOf", each(g)));
    f.anyOf().forEach(g -> choices.addObject().set("anyOf", each(g)));
    f.atMostOne().forEach(g -> choices.addObject().putObject("not").set("anyOf", pairs(g)));
    if (!choices.isEmpty()) {
      block.set("allOf", choices);
    }
    return block;
  }

  private static ArrayNode each(List<String> keys) {
    ArrayNode all = JSON.arrayNode();
    keys.forEach(k -> all.addObject().putArray("required").add(k));
    return all;
  }

  private static ArrayNode pairs(List<String> keys) {
    ArrayNode all = JSON.arrayNode();
    for (int i = 0; i < keys.size(); i++) {
      for (int j = i + 1; j < keys.size(); j++) {
        all.addObject().putArray("required").add(keys.get(i)).add(keys.get(j));
      }
    }
    return all;
  }
}
