package org.faultwright.cli.converse;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.util.TokenBuffer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.faultwright.cli.converse.Refused.Kind;
import org.faultwright.cli.json.AnswerJson;
import org.faultwright.diagnosis.Answer;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Nearest;

/**
 * The keys of answers that somebody wants to have.
 *
 * @param keys empty: all
 */
record Parts(Pack pack, Set<String> keys) {

  /** Where a request says it. */
  static final String KEY = "parts";

  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** Keys that not every answer has. */
  private static final List<String> AT_TIMES =
      List.of(
          "ranking",
          "complaints",
          "logEvidence",
          "clash",
          "predictedEntries",
          "allowedEntries",
          "expectedCost");

  /**
   * What a request says; all where it says nothing.
   *
   * @throws Refused when answers have no such key
   */
  static Parts wanted(Request request, Pack pack, Answer answer) throws Refused {
    if (request.value(KEY).isEmpty()) {
      return new Parts(pack, Set.of());
    }
    List<String> known = new ArrayList<>(AT_TIMES);
    for (Iterator<String> names = tree(pack, answer).fieldNames(); names.hasNext(); ) {
      known.add(names.next());
    }
    Set<String> keys = new LinkedHashSet<>();
    for (JsonNode part : request.list(KEY)) {
      if (!part.isTextual() || !known.contains(part.asText())) {
        throw new Refused(
            Kind.BAD_VALUE,
            "answers have no part "
                + part
                + Nearest.of(part.asText(), known)
                    .map(n -> "; did you mean '" + n + "'?")
                    .orElse(""));
      }
      keys.add(part.asText());
    }
    return new Parts(pack, keys);
  }

  /** Writes an answer, or what is wanted of it, as an object. */
  void write(JsonGenerator json, Answer answer) throws IOException {
    ObjectNode tree = tree(pack, answer);
    if (!keys.isEmpty()) {
      tree.retain(keys);
    }
    json.writeTree(tree);
  }

  private static ObjectNode tree(Pack pack, Answer answer) {
    try (TokenBuffer tokens = new TokenBuffer(MAPPER, false)) {
      tokens.writeStartObject();
      new AnswerJson(pack).writeFields(tokens, answer, List.of());
      tokens.writeEndObject();
      return MAPPER.readTree(tokens.asParser());
    } catch (IOException e) { // nothing is read or written but memory
      throw new UncheckedIOException(e);
    }
  }
}
