package org.faultwright.cli;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** A conversation in JSON lines, and what the page about it shows. */
class ConverseTest {

  private static final Path PAGE = Path.of("docs/converse.md");
  private static final String PACKS = "src/test/resources/packs";
  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final String OPEN =
      "{\"ask\":\"open\",\"case\":{\"case\":\"c\",\"format\":1,\"pack\":\"plover-tablet/sound\"}}";

  @Test
  void transcript_isWhatComesBack() throws IOException {
    List<String> lines = Files.readString(PAGE).lines().toList();
    String requests = said(lines, "> ");
    String replies = said(lines, "< ");
    assertThat(requests.lines().count()).isGreaterThan(8).isEqualTo(replies.lines().count());
    Shell.Result result = Shell.PLAIN.reading(requests).run("converse", "--packs", PACKS);
    assertThat(result.err()).isEmpty();
    assertThat(result.out()).isEqualTo(replies);
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
  }

  private static String said(List<String> lines, String mark) {
    return lines.stream()
        .filter(line -> line.startsWith(mark))
        .map(line -> line.substring(mark.length()) + "\n")
        .collect(Collectors.joining());
  }

  @Test
  void answer_isWhatDiagnosePrints() throws IOException {
    String file = PACKS + "/plover-tablet/sound/cases/first-look.yaml";
    JsonNode printed =
        MAPPER.readTree(Shell.PLAIN.run("diagnose", "--packs", PACKS, "--json", file).out());
    String open =
        MAPPER.writeValueAsString(
            MAPPER
                .createObjectNode()
                .put("ask", "open")
                .put("case", Files.readString(Path.of(file))));
    JsonNode answer = replies(open, "{\"ask\":\"answer\"}").get(1).get("answer");
    for (String key : List.of("ranking", "facts", "advice", "others", "steps", "logEvidence")) {
      assertThat(answer.get(key)).as(key).isNotNull().isEqualTo(printed.get(key));
    }
  }

  @Test
  void whatFails_leavesEverythingAsItWas() throws IOException {
    List<JsonNode> replies =
        replies(
            OPEN,
            "{\"ask\":\"tell\",\"facts\":[{\"complaint\":\"no-sound\"},{\"symptom\":\"crackels\",\"is\":\"present\"}]}",
            "{\"ask\":\"withdraw\",\"fact\":1}",
            "{\"ask\":\"save\"}");
    assertThat(error(replies.get(1))).isEqualTo("bad-fact");
    assertThat(replies.get(1).at("/error/problems/0/wayOut").asText())
        .isEqualTo("did you mean 'crackles'?");
    assertThat(error(replies.get(2))).isEqualTo("bad-value");
    assertThat(replies.get(3).get("case").asText()).doesNotContain("facts");
  }

  /** A pin table is several facts, a state seen without a number one without a value. */
  @Test
  void readings_areToldAsInACaseFile() throws IOException {
    List<JsonNode> replies =
        replies(
            OPEN,
            "{\"ask\":\"tell\",\"facts\":[{\"pins\":\"coil-ohms\",\"values\":{\"coil\":\"8.1"
                + " ohm\"}},{\"reading\":\"coil\",\"is\":\"open\"}]}",
            "{\"ask\":\"tell\",\"facts\":[{\"reading\":\"coil\",\"value\":\"open\"}]}",
            "{\"ask\":\"tell\",\"facts\":[{\"reading\":\"coil\",\"value\":\"NaN\"}]}");
    assertThat(replies.get(1).get("facts")).hasSize(2);
    assertThat(replies.get(2).at("/error/problems/0/wayOut").asText())
        .isEqualTo("what was seen without a number goes with 'is': open");
    assertThat(replies.get(3).at("/error/problems/0/wayOut").asText())
        .startsWith("write a value with its unit, such as 4.7 k");
  }

  @Test
  void whatIsSaved_canBeOpenedAgain() throws IOException {
    List<JsonNode> first =
        replies(
            OPEN,
            "{\"ask\":\"tell\",\"facts\":[{\"complaint\":\"no-sound\"},{\"reading\":\"coil\",\"value\":\"OL\"},{\"note\":\"\\\"äöü\\\"\"}]}",
            "{\"ask\":\"save\"}",
            "{\"ask\":\"answer\",\"parts\":[\"ranking\"]}");
    String again =
        MAPPER.writeValueAsString(
            MAPPER.createObjectNode().put("ask", "open").set("case", first.get(2).get("case")));
    List<JsonNode> second = replies(again, "{\"ask\":\"answer\",\"parts\":[\"ranking\"]}");
    assertThat(second.get(0).get("facts")).isEqualTo(first.get(1).get("facts"));
    assertThat(second.get(1).get("answer")).isEqualTo(first.get(3).get("answer"));
  }

  @Test
  void aWithdrawnFact_isAsIfNeverTold() throws IOException {
    String ask = "{\"ask\":\"answer\",\"parts\":[\"ranking\",\"advice\",\"logEvidence\"]}";
    List<JsonNode> replies =
        replies(
            OPEN,
            "{\"ask\":\"tell\",\"facts\":[{\"complaint\":\"no-sound\"}]}",
            ask,
            "{\"ask\":\"tell\",\"facts\":[{\"outcome\":\"settings-check\",\"is\":\"muted\"}]}",
            ask,
            "{\"ask\":\"withdraw\",\"fact\":2}",
            ask);
    assertThat(replies.get(6).get("answer")).isEqualTo(replies.get(2).get("answer"));
    assertThat(replies.get(4).get("answer")).isNotEqualTo(replies.get(2).get("answer"));
  }

  @Test
  void linesThatCannotBeRead_areAnsweredByTheirNumber() throws IOException {
    String deep = "[".repeat(100_000);
    String long1 = "{\"ask\":\"" + "x".repeat(2_000_000) + "\"}";
    List<JsonNode> replies =
        replies(
            "",
            "{",
            "[]",
            "{\"ask\":\"packs\"} {}",
            "{\"ask\":\"packs\",\"ask\":\"end\"}",
            deep,
            long1,
            "{\"ask\":7}",
            "{}",
            "{\"ask\":\"answer\"}",
            "{\"ask\":\"answer\",\"prats\":[]}",
            "{\"ask\":\"open\",\"case\":\"case: c\\nformat: 1\\npack: no/such\\n\"}");
    assertThat(replies)
        .extracting(r -> r.get("line").asInt())
        .containsExactly(2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12);
    assertThat(replies)
        .extracting(ConverseTest::error)
        .containsExactly(
            "not-json",
            "not-json",
            "not-json",
            "not-json",
            "not-json",
            "too-long",
            "bad-value",
            "missing-key",
            "no-case",
            "unknown-key",
            "bad-case");
    assertThat(replies.get(10).at("/error/problems/0/id").asText()).isEqualTo("unknown-pack");
  }

  @Test
  void aLineThatIsNoText_isRefused() throws IOException {
    Shell.Result result =
        Shell.PLAIN.reading("{\"ask\":\"\u00e4\"}\n".getBytes(ISO_8859_1)).run("converse");
    assertThat(error(MAPPER.readTree(result.out()))).isEqualTo("not-text");
  }

  @Test
  void theIdOfARequest_comesBackAsItWas() throws IOException {
    List<JsonNode> replies =
        replies("{\"id\":{\"a\":[1,null]},\"ask\":\"end\"}", "{\"ask\":\"packs\"}");
    assertThat(replies).as("nothing is answered after the end").hasSize(1);
    assertThat(replies.get(0).get("id")).isEqualTo(MAPPER.readTree("{\"a\":[1,null]}"));
  }

  private static String error(JsonNode reply) {
    assertThat(reply.get("ok").asBoolean()).isFalse();
    return reply.at("/error/kind").asText();
  }

  private static List<JsonNode> replies(String... requests) throws IOException {
    Shell.Result result =
        Shell.PLAIN
            .reading((String.join("\n", requests) + "\n").getBytes(UTF_8))
            .run("converse", "--packs", PACKS);
    assertThat(result.err()).isEmpty();
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    List<JsonNode> replies = new ArrayList<>();
    for (String line : result.out().lines().toList()) {
      replies.add(MAPPER.readTree(line));
    }
    return replies;
  }
}
