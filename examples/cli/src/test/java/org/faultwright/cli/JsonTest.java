package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Holds what {@code --json} prints to the published schema, and that to what is printed. */
class JsonTest {

  private static final String PACKS = "src/test/resources/packs";
  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final String SCHEMA = "/org/faultwright/shared/schema/answer-1.schema.json";

  static Stream<Path> cases() {
    return Stream.concat(
        Bundle.yamlFiles(Path.of(PACKS, "plover-tablet/sound/cases")).stream(),
        Bundle.yamlFiles(Path.of("../cases")).stream());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void diagnosed_isAsTheSchemaSays(Path file) throws IOException {
    JsonNode answer = json("diagnose", "--packs", PACKS, "--json", file.toString());
    assertThat(errors(answer)).isEmpty();
  }

  @Test
  void everythingThatIsKnown_isInTheRanking() throws IOException {
    JsonNode answer = json("diagnose", "--packs", PACKS, "--json", example("first-look"));
    assertThat(answer.get("format").asInt()).isEqualTo(1);
    assertThat(answer.get("outlook").asText()).isEqualTo("ranked");
    List<Double> ps =
        StreamSupport.stream(answer.get("ranking").spliterator(), false)
            .map(r -> r.get("probability").asDouble())
            .toList();
    // six causes of the pack, and the loudspeaker that could be fitted and be bad
    assertThat(ps).hasSize(7).isSortedAccordingTo((a, b) -> Double.compare(b, a));
    assertThat(answer.get("why")).hasSize(1);
    assertThat(answer.get("why").get(0).get("cause"))
        .isEqualTo(answer.get("ranking").get(0).get("cause"));
  }

  @Test
  void whatTheJobTakesToItsEnd_standsBesideEachAdvice() throws IOException {
    JsonNode answer = json("diagnose", "--json", "../cases/wren-charging.yaml");
    JsonNode first = answer.get("advice").get("toTheEnd");
    assertThat(first.get("cost").asDouble())
        .isCloseTo(answer.get("expectedCost").asDouble(), within(1e-9));
    // a minute at the bench is 1 in a shop of which nothing is known, a minute of waiting 0.05
    assertThat(first.get("cost").asDouble())
        .isCloseTo(
            first.get("handsMinutes").asDouble()
                + 0.05 * first.get("waitMinutes").asDouble()
                + first.get("money").asDouble()
                + first.get("risk").asDouble(),
            within(1e-9));
    assertThat(answer.get("advice").get("behind")).isNull();
    int weighed = 0;
    for (JsonNode other : answer.get("others")) {
      if (other.has("toTheEnd")) {
        weighed++;
        for (String key : List.of("cost", "handsMinutes", "waitMinutes", "money", "risk")) {
          assertThat(other.get("behind").get(key).asDouble())
              .isCloseTo(
                  other.get("toTheEnd").get(key).asDouble() - first.get(key).asDouble(),
                  within(1e-9));
        }
      }
    }
    assertThat(weighed).isGreaterThanOrEqualTo(3);
  }

  @Test
  void impossibleFacts_areNumbered() throws IOException {
    JsonNode answer = json("diagnose", "--packs", PACKS, "--json", example("two-looks"));
    assertThat(errors(answer)).isEmpty();
    assertThat(answer.get("outlook").asText()).isEqualTo("impossible");
    assertThat(answer.get("clash")).extracting(JsonNode::asInt).containsExactly(2, 3);
    assertThat(answer.get("ranking")).isNull();
    assertThat(answer.get("why")).isEmpty();
  }

  @Test
  void supposed_holdsBothAnswers() throws IOException {
    JsonNode both =
        json(
            "suppose",
            "--packs",
            PACKS,
            "--json",
            example("first-look"),
            "--fact",
            "{reading: coil, value: OL}");
    assertThat(errors(both)).isEmpty();
    assertThat(both.get("supposed")).extracting(JsonNode::asText).containsExactly("Coil: OL");
    assertThat(p(both.get("then"), "speaker-open"))
        .isGreaterThan(p(both.get("now"), "speaker-open"));
  }

  @Test
  void branches_holdAnAnswerEach() throws IOException {
    JsonNode all =
        json(
            "suppose",
            "--packs",
            PACKS,
            "--json",
            example("first-look"),
            "--each",
            "press-check",
            "--branch",
            "{reading: coil, value: OL}");
    assertThat(errors(all)).isEmpty();
    assertThat(all.get("branches"))
        .extracting(b -> b.get("supposed").get(0).asText())
        .containsExactly(
            "Coil: OL",
            "Play a tone and press beside the loudspeaker: comes and goes",
            "Play a tone and press beside the loudspeaker: steady");
    assertThat(p(all.get("branches").get(0).get("then"), "speaker-open"))
        .isGreaterThan(p(all.get("now"), "speaker-open"));
  }

  @Test
  void causesThatWereAskedAbout_areExplained() throws IOException {
    JsonNode answer =
        json(
            "diagnose",
            "--packs",
            PACKS,
            "--json",
            "--why",
            "amp-dead",
            "--why",
            "grille-clogged",
            example("first-look"));
    assertThat(errors(answer)).isEmpty();
    assertThat(answer.get("why"))
        .extracting(w -> w.get("cause").asText())
        .containsExactly("amp-dead", "grille-clogged");
  }

  @Test
  void schema_refusesWhatIsNotAnAnswer() throws IOException {
    ObjectNode answer =
        (ObjectNode) json("diagnose", "--packs", PACKS, "--json", example("first-look"));
    ObjectNode certain = answer.deepCopy();
    ((ObjectNode) certain.get("ranking").get(0)).put("probability", 1.2);
    assertThat(errors(certain)).isNotEmpty();
    ObjectNode extra = answer.deepCopy();
    extra.put("undescribed", true);
    assertThat(errors(extra)).isNotEmpty();
    ObjectNode without = answer.deepCopy();
    without.remove("advice");
    assertThat(errors(without)).isNotEmpty();
  }

  private static double p(JsonNode answer, String cause) {
    return StreamSupport.stream(answer.get("ranking").spliterator(), false)
        .filter(r -> r.get("cause").asText().equals(cause))
        .findFirst()
        .orElseThrow()
        .get("probability")
        .asDouble();
  }

  private static String example(String name) {
    return PACKS + "/plover-tablet/sound/cases/" + name + ".yaml";
  }

  private static JsonNode json(String... args) throws IOException {
    Shell.Result result = Shell.PLAIN.run(args);
    assertThat(result.err()).isEmpty();
    return MAPPER.readTree(result.out());
  }

  private static List<Error> errors(JsonNode answer) throws IOException {
    try (InputStream in = JsonTest.class.getResourceAsStream(SCHEMA)) {
      JsonNode closed = closed(MAPPER.readTree(in));
      Schema schema =
          SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(closed);
      return schema.validate(answer);
    }
  }

  /**
   * The published schema allows keys to be added; here every key that is printed must be described.
   */
  private static JsonNode closed(JsonNode schema) {
    if (schema instanceof ObjectNode object && object.has("properties") && object.has("type")) {
      // an answer is part of a whole that has more keys: what refers to it is closed instead
      if (!object.get("properties").has("outlook")) {
        object.put("unevaluatedProperties", false);
      }
      for (JsonNode property : object.get("properties")) {
        if (property.path("$ref").asText().equals("#/$defs/answer")) {
          ((ObjectNode) property).put("unevaluatedProperties", false);
        }
      }
    }
    schema.forEach(JsonTest::closed);
    return schema;
  }
}
