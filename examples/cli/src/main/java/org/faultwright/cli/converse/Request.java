package org.faultwright.cli.converse;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonFactoryBuilder;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.faultwright.cli.converse.Refused.Kind;
import org.faultwright.problem.Nearest;

/** One request: an object with {@code ask}, perhaps {@code id}, and what the request needs. */
record Request(JsonNode body) {

  private static final int MOST_DEPTH = 32;

  private static final ObjectMapper MAPPER =
      new ObjectMapper(factory())
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .enable(DeserializationFeature.FAIL_ON_READING_DUP_TREE_KEY);

  private static JsonFactory factory() {
    return new JsonFactoryBuilder()
        .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
        .streamReadConstraints(
            StreamReadConstraints.builder()
                .maxNestingDepth(MOST_DEPTH)
                .maxStringLength(RequestLines.MOST_BYTES)
                .build())
        .build();
  }

  /**
   * Reads a line.
   *
   * @throws Refused when it is no JSON object
   */
  static Request parse(String line) throws Refused {
    try {
      JsonNode body = MAPPER.readTree(line);
      if (body == null || !body.isObject()) {
        throw new Refused(Kind.NOT_JSON, "a request is one JSON object on one line");
      }
      return new Request(body);
    } catch (JsonProcessingException e) {
      String where =
          e.getLocation() == null ? "" : " (column " + e.getLocation().getColumnNr() + ")";
      throw new Refused(
          Kind.NOT_JSON,
          "the line is no JSON object: "
              + plain(e.getOriginalMessage().replaceAll(": enable .*", ""))
              + where);
    }
  }

  private static String plain(String message) {
    return message.lines().findFirst().orElse("").replaceFirst(" at \\[Source.*", "");
  }

  /** What stands under {@code id}, whatever it is: it comes back with the reply. */
  Optional<JsonNode> id() {
    return Optional.ofNullable(body.get("id"));
  }

  /**
   * A text that must be there.
   *
   * @throws Refused when it is not, or is no text
   */
  String text(String key) throws Refused {
    return optionalText(key)
        .orElseThrow(() -> new Refused(Kind.MISSING_KEY, "the request needs '" + key + "'"));
  }

  /**
   * A text that may be there.
   *
   * @throws Refused when it is no text
   */
  Optional<String> optionalText(String key) throws Refused {
    JsonNode value = body.get(key);
    if (value == null) {
      return Optional.empty();
    } else if (!value.isTextual()) {
      throw new Refused(Kind.BAD_VALUE, "'" + key + "' must be a text: " + shown(value));
    }
    return Optional.of(value.asText());
  }

  /**
   * A whole number from 1 that must be there.
   *
   * @throws Refused when it is not
   */
  int number(String key) throws Refused {
    JsonNode value = body.get(key);
    if (value == null) {
      throw new Refused(Kind.MISSING_KEY, "the request needs '" + key + "'");
    } else if (!value.isInt() || value.asInt() < 1) {
      throw new Refused(
          Kind.BAD_VALUE, "'" + key + "' must be a whole number from 1: " + shown(value));
    }
    return value.asInt();
  }

  /**
   * A list that must be there and hold something.
   *
   * @throws Refused when it is not
   */
  List<JsonNode> list(String key) throws Refused {
    JsonNode value = body.get(key);
    if (value == null) {
      throw new Refused(Kind.MISSING_KEY, "the request needs '" + key + "'");
    } else if (!value.isArray() || value.isEmpty()) {
      throw new Refused(
          Kind.BAD_VALUE, "'" + key + "' must be a list with something in it: " + shown(value));
    }
    List<JsonNode> items = new ArrayList<>();
    value.forEach(items::add);
    return items;
  }

  /** What stands under a key. */
  Optional<JsonNode> value(String key) {
    return Optional.ofNullable(body.get(key));
  }

  /**
   * Refuses keys that the request does not know: a slip would be passed over in silence.
   *
   * @throws Refused when there is one
   */
  void allowOnly(List<String> keys) throws Refused {
    List<String> known = new ArrayList<>(keys);
    known.addAll(List.of("ask", "id"));
    for (Iterator<String> names = body.fieldNames(); names.hasNext(); ) {
      String name = names.next();
      if (!known.contains(name)) {
        throw new Refused(
            Kind.UNKNOWN_KEY,
            "the request knows no '"
                + name
                + "'"
                + Nearest.of(name, known).map(n -> "; did you mean '" + n + "'?").orElse(""));
      }
    }
  }

  private static String shown(JsonNode value) {
    String text = value.toString();
    return text.length() <= 60 ? text : text.substring(0, 57) + "...";
  }
}
