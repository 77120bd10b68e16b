package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What {@code tree} shows, and what it says where it cannot. */
class TreeTest {

  private static final String PACKS = "src/test/resources/packs";
  private static final String PACK = PACKS + "/plover-tablet/sound/pack.yaml";
  private static final String TANK = "../models/pressure-tank.xml";
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir private Path folder;

  /** NUREG-0492, 1981, chapter VIII (tree from memory, figures recomputed). */
  @Test
  void pressureTank_hasThePublishedFigures() throws IOException {
    JsonNode tank = json("tree", TANK, "--json");
    assertThat(tank.get("top").asText()).isEqualTo("rupture");
    for (String way : List.of("independent", "circuit")) {
      assertThat(tank.get(way).get("probability").asDouble() / 3.501334916e-5)
          .isCloseTo(1, within(1e-9));
    }
    assertThat(tank.get("cutSets").get("count").asInt()).isEqualTo(5);
    assertThat(tank.get("cutSets").get("rareEventSum").asDouble())
        .isCloseTo(3.50135e-5, within(1e-17));
    assertThat(tank.get("cutSets").get("listed").get(0).get("events").get(0).asText())
        .isEqualTo("K2");
  }

  @Test
  void tree_isReadFromStandardInput() throws IOException {
    assertThat(Shell.PLAIN.reading(Files.readAllBytes(Path.of(TANK))).run("tree", "-").out())
        .isEqualTo(Shell.PLAIN.run("tree", TANK).out().replace(TANK, "-"));
  }

  /** The exact probability of a complaint is the rate that the pack states for it. */
  @Test
  void complaintOfAPack_hasItsRate() throws IOException {
    JsonNode tree = json("tree", PACK, "no-sound", "--json");
    assertThat(tree.get("circuit").get("probability").asDouble()).isCloseTo(0.1, within(1e-12));
    assertThat(json("tree", "--packs", PACKS, "plover-tablet/sound", "no-sound", "--json"))
        .isEqualTo(tree);
  }

  @Test
  void limits_sayWhatTheyLeaveOut() {
    Shell.Result result = Shell.PLAIN.run("tree", TANK, "--max-order", "1", "--cutoff", "1e-5");
    assertThat(result.out())
        .contains(
            "MINIMAL CUT SETS: 5 (2 of order 1, 3 of order 2)",
            "3 of more events than asked for, together 1.35e-8",
            "1 less likely than asked for, together 5e-6");
    assertThat(Shell.PLAIN.run("tree", TANK, "--most", "2").out())
        .contains("3 not listed, together", "4 not listed; all with --most 6");
  }

  /** What is written out for other programs is the same tree. */
  @Test
  void treeOfAPack_isTheSame_whenWrittenAndRead() throws IOException {
    Path file = folder.resolve("t.xml");
    Files.writeString(file, Shell.PLAIN.run("tree", PACK, "no-sound", "--open-psa").out());
    JsonNode written = json("tree", file.toString(), "silent", "--json");
    JsonNode tree = json("tree", PACK, "no-sound", "--json");
    assertThat(written.get("cutSets")).isEqualTo(tree.get("cutSets"));
    assertThat(written.get("importances")).isEqualTo(tree.get("importances"));
    assertThat(written.get("independent")).isEqualTo(tree.get("independent"));
  }

  @Test
  void topIsNotGuessed_whereThereAreSeveral() throws IOException {
    Path file = folder.resolve("two.xml");
    Files.writeString(
        file,
        "<opsa-mef><define-fault-tree name=\"T\"><define-gate name=\"a\"><or><event name=\"x\"/>"
            + "</or></define-gate><define-gate name=\"b\"><or><event name=\"x\"/></or>"
            + "</define-gate><define-basic-event name=\"x\"><float value=\"0.5\"/>"
            + "</define-basic-event></define-fault-tree></opsa-mef>");
    assertUsage(
        Shell.PLAIN.run("tree", file.toString()),
        "faultwright: which top event of '" + file + "'? There are: a, b");
    assertThat(Shell.PLAIN.run("tree", file.toString(), "b").out()).startsWith("TREE b\n");
    assertUsage(
        Shell.PLAIN.run("tree", TANK, "overpresure"),
        "faultwright: '"
            + TANK
            + "' has no top event 'overpresure'; did you mean"
            + " 'overpressure'?");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "tree plover-tablet/sond|there is no pack and no file 'plover-tablet/sond'",
        "tree ../models/chest-clinic.bif|'../models/chest-clinic.bif' is a network in BIF",
        "tree ../models/pressure-tank.xml --max-order 0|--max-order must be at least 1: 0",
        "tree ../models/pressure-tank.xml --cutoff 2|--cutoff must be in [0, 1]: 2.0",
        "tree ../models/pressure-tank.xml --most -1|--most must be in [0, 100000]: -1",
        "tree ../models/pressure-tank.xml --mission-time -1|--mission-time must not be negative:"
            + " -1.0",
      })
  void wrongUse_isTold(String command, String message) {
    Shell.Result result = Shell.PLAIN.run(command.split(" "));
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.out()).isEmpty();
    assertThat(result.err()).startsWith("faultwright: " + message);
  }

  @Test
  void brokenFile_isReportedAtItsPlace() throws IOException {
    Path file = folder.resolve("t.xml");
    Files.writeString(file, Files.readString(Path.of(TANK)).replace("<or>", "<orr>"));
    Shell.Result result = Shell.PLAIN.run("tree", file.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out()).isEmpty();
    assertThat(result.err()).contains(file + ":9:", "error[not-xml]").doesNotContain("\tat ");
  }

  /** Two pairings that no order of the variables suits: typed, and no memory lost. */
  @Test
  void treeThatIsTooLarge_isTold() throws IOException {
    int n = 60;
    StringBuilder text = new StringBuilder("<opsa-mef><define-fault-tree name=\"T\">");
    text.append("<define-gate name=\"g\"><and>");
    for (int factor : new int[] {1, 7, 11, 13, 17}) {
      text.append("<or>");
      for (int i = 0; i < n; i++) {
        text.append("<and><event name=\"a" + i + "\"/><event name=\"b" + factor * i % n);
        text.append("\"/></and>");
      }
      text.append("</or>");
    }
    text.append("</and></define-gate>");
    for (int i = 0; i < n; i++) {
      for (String side : List.of("a", "b")) {
        text.append("<define-basic-event name=\"" + side + i + "\"><float value=\"0.5\"/>");
        text.append("</define-basic-event>");
      }
    }
    Path file = folder.resolve("large.xml");
    Files.writeString(file, text + "</define-fault-tree></opsa-mef>");
    Shell.Result result = Shell.PLAIN.run("tree", file.toString());
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err())
        .startsWith(
            "faultwright: the tree is too large: its decision diagram would have more than");
  }

  private static JsonNode json(String... args) throws IOException {
    Shell.Result result = Shell.PLAIN.run(args);
    assertThat(result.err()).isEmpty();
    JsonNode json = MAPPER.readTree(result.out());
    assertThat(Schemas.errors("tree-1", json)).isEmpty();
    return json;
  }

  private static void assertUsage(Shell.Result result, String message) {
    assertThat(result).isEqualTo(new Shell.Result(ExitCode.USAGE, "", message + "\n"));
  }
}
