package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The command pins, on the example tables. */
class PinsTest {

  private static final Path FOLDER = Path.of("../pins");
  private static final String PACK = FOLDER.resolve("redpoll-display.yaml").toString();

  private static Shell.Result pins(String table, String... more) {
    String[] args = new String[5 + more.length];
    args[0] = "pins";
    args[1] = "--pack";
    args[2] = PACK;
    args[3] = "--table";
    args[4] = table.equals("-") ? table : FOLDER.resolve(table).toString();
    System.arraycopy(more, 0, args, 5, more.length);
    return Shell.PLAIN.run(args);
  }

  @Test
  void soundBoard_isClean() {
    Shell.Result result = pins("sound-board.csv");
    assertThat(result.err()).isEmpty();
    assertThat(result.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(result.out()).doesNotContain("ODD PINS").doesNotContain("alike");
  }

  @Test
  void warmBoard_pointsToTheMeterOrTheTemperature_andToNoFault() {
    Shell.Result result = pins("warm-board.csv");
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.out())
        .contains("low alike")
        .contains("rather than for as many")
        .doesNotContain("ODD PINS");
  }

  @Test
  void shortedLine_standsOutWithoutColour() {
    String out = pins("one-line-shorted.csv").out();
    assertThat(out.lines().filter(l -> l.startsWith("!")))
        .hasSize(1)
        .allMatch(l -> l.contains("LANE2N") && l.endsWith("SHORT"));
    assertThat(out).contains("LANE2N, short: Protection of a picture lane shorted");
  }

  @Test
  void tableFromTheWrongEnd_isAskedAbout_andFitsOnceTurned() {
    Shell.Result asNoted = pins("counted-from-the-other-end.csv");
    assertThat(asNoted.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(asNoted.out())
        .contains("NOTED THE WRONG WAY ROUND?")
        .contains("--turned from-the-other-end");
    Shell.Result turned = pins("counted-from-the-other-end.csv", "--turned", "from-the-other-end");
    assertThat(turned.exitCode()).as(turned.out()).isEqualTo(ExitCode.CLEAN);
  }

  @Test
  void oddPinsThatPointToTheSame_standTogether() {
    String out = pins("counted-from-the-other-end.csv").out();
    assertThat(out.lines().filter(l -> l.startsWith("!"))).hasSize(28);
    String pointing = out.substring(out.indexOf("ODD PINS"), out.indexOf("TO KNOW"));
    assertThat(pointing.lines().filter(l -> l.startsWith("  * "))).hasSize(7);
    assertThat(pointing)
        .contains("pins 25, 27, 28, 29 and 36, low: Backlight driver bad")
        .contains("pin 22 VSP and pin 23 VSN, low: Supply of the panel shorted");
  }

  @Test
  void shopWithAGuardBand_refusesWhatLiesJustInside() throws Exception {
    Path shop = java.nio.file.Files.createTempFile("shop", ".yaml");
    java.nio.file.Files.writeString(shop, "shop: strict\nformat: 1\nguard-band: 1\n");
    assertThat(pins("warm-board.csv").out()).doesNotContain("guard band");
    String out = pins("warm-board.csv", "--shop", shop.toString()).out();
    assertThat(out.replaceAll("\\s+", " "))
        .containsPattern("\\d+ readings inside their limits are refused by the shop's guard band");
    JsonNode json =
        new ObjectMapper()
            .readTree(pins("warm-board.csv", "--json", "--shop", shop.toString()).out());
    JsonNode first = json.get("pins").get(4).get("conformance"); // 359 mV, 1.1 u inside
    assertThat(first.get("inside").asBoolean()).isTrue();
    assertThat(first.get("accepted").asBoolean()).isFalse();
    assertThat(first.get("words").asText()).endsWith("refused by the guard band");
    java.nio.file.Files.delete(shop);
  }

  @Test
  void page_fitsEightyColumns() {
    for (String table : new String[] {"warm-board.csv", "counted-from-the-other-end.csv"}) {
      assertThat(pins(table).out().lines()).allMatch(l -> l.length() <= 80);
    }
  }

  @Test
  void json_hasTheNumbers() throws Exception {
    JsonNode json = new ObjectMapper().readTree(pins("one-line-shorted.csv", "--json").out());
    assertThat(json.get("pins")).hasSize(31);
    JsonNode odd = null;
    for (JsonNode pin : json.get("pins")) {
      if (pin.get("state").asText().equals("short")) {
        odd = pin;
      }
    }
    assertThat(odd.get("point").asText()).isEqualTo("pin-lane2n");
    assertThat(odd.get("value").asDouble()).isEqualTo(0.004);
    // common arithmetic: 0.004 / 0.386 - 1
    assertThat(odd.get("deviation").asDouble())
        .isCloseTo(-0.98964, org.assertj.core.api.Assertions.within(1e-5));
    assertThat(odd.get("pointsTo").get(0).get("node").asText())
        .isEqualTo("lane-protection-shorted");
  }

  @Test
  void fact_isReadBackByACase() {
    Shell.Result fact = pins("one-line-shorted.csv", "--fact");
    assertThat(fact.exitCode()).isEqualTo(ExitCode.CLEAN);
    String caseText =
        "case: shorted\nformat: 1\npack: redpoll-tablet/display\nfacts:\n"
            + "  - complaint: no-picture\n"
            + fact.out();
    Shell.Result result = Shell.PLAIN.reading(caseText).run("pins", "-", "--pack", PACK);
    assertThat(result.err()).isEmpty();
    assertThat(result.out()).contains("LANE2N, short: Protection of a picture lane shorted");
  }

  @Test
  void badTable_isRefusedWithRowAndColumn_andNothingIsTaken() {
    Shell.Result result =
        Shell.PLAIN
            .reading("\uFEFFpin;value\n2;\"0,382 V\"\nLANE0;0.4\n")
            .run("pins", "--pack", PACK, "--table", "-");
    assertThat(result.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(result.err())
        .contains("-: row 3, column 1: no pin is called 'LANE0'")
        .contains("did you mean 'LANE0P'?")
        .contains("Nothing was taken from the table.");
    assertThat(result.out()).isEmpty();
  }

  @Test
  void pairThatDiffers_standsOut_thoughEachPinPassesByItself() throws Exception {
    String begin =
        "case: pair\nformat: 1\npack: wren-handset/charging\nfacts:\n"
            + "  - complaint: charges-slowly\n"
            + "  - pins: socket-pin-table\n    values: {7: 570, 8: ";
    Shell.Result differs = Shell.PLAIN.reading(begin + "541}\n").run("pins", "-");
    assertThat(differs.exitCode()).isEqualTo(ExitCode.FINDINGS);
    assertThat(differs.out().lines()).noneMatch(l -> l.startsWith("!"));
    assertThat(differs.out().replaceAll("\\s+", " "))
        .contains("pin 7 D+ and D-, which differ: Protection of the data lines leaky")
        .contains(
            "pin 7 D+ lies 29 mV above D-: they differ (good devices stay within about 17 mV");
    Shell.Result alike = Shell.PLAIN.reading(begin + "569}\n").run("pins", "-");
    assertThat(alike.exitCode()).isEqualTo(ExitCode.CLEAN);
    assertThat(alike.out()).contains("they read alike").doesNotContain("ODD PINS");
    JsonNode json =
        new ObjectMapper()
            .readTree(Shell.PLAIN.reading(begin + "541}\n").run("pins", "-", "--json").out());
    JsonNode difference = json.get("differences").get(0);
    assertThat(json.get("differences")).hasSize(1);
    assertThat(difference.get("otherPoint").asText()).isEqualTo("socket-dm");
    assertThat(difference.get("difference").asDouble())
        .isCloseTo(0.029, org.assertj.core.api.Assertions.within(1e-9));
    assertThat(difference.get("apart").asBoolean()).isTrue();
    assertThat(difference.get("pointsTo").get(0).get("node").asText())
        .isEqualTo("data-lines-leaky");
  }

  @Test
  void usage_namesTheStepsThereAre() {
    Shell.Result result = Shell.PLAIN.run("pins", "--pack", PACK, "--step", "display-pins");
    assertThat(result.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(result.err()).contains("it does in: display-pin-table");
    assertThat(Shell.PLAIN.run("pins").err()).contains("name a case file, or a pack with --pack");
    assertThat(pins("sound-board.csv", "--turned", "upside-down").err())
        .contains("--turned must be one of from-the-other-end, rows-swapped, halves-swapped");
  }
}
