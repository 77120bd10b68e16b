package org.faultwright.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;

/** Holds JSON to the published schemas; every key that is printed must be described there. */
final class Schemas {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  private Schemas() {}

  static List<Error> errors(String name, JsonNode json) throws IOException {
    String resource = "/org/faultwright/shared/schema/" + name + ".schema.json";
    try (InputStream in = Schemas.class.getResourceAsStream(resource)) {
      Schema schema =
          SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
              .getSchema(closed(MAPPER.readTree(in)));
      return schema.validate(json);
    }
  }

  private static JsonNode closed(JsonNode schema) {
    if (schema instanceof ObjectNode object
        && object.has("properties")
        && object.path("type").asText().equals("object")) {
      object.put("additionalProperties", false);
    }
    schema.forEach(Schemas::closed);
    return schema;
  }
}
