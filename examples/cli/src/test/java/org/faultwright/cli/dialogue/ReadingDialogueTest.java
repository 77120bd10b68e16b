package org.faultwright.cli.dialogue;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.cli.text.Screen;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.reader.PackLibrary;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Readings told in a dialogue, on packs that come along. */
class ReadingDialogueTest {

  private static final String SLOW =
      """
      case: slow
      format: 1
      pack: wren-handset/charging
      consent: [opening, board-work]
      facts:
        - {complaint: charges-slowly}
        - {outcome: known-good-cable, is: charges}
        - {reading: usb-amps, value: 0.24 A}
        - {outcome: battery-health, is: good}
        - {outcome: settings-check, is: plain}
        - {outcome: look-into-port, is: clean}
        - {bench: device-open}
        - {bench: battery-disconnected}
        - {bench: charge-flex-off}
      """;

  @TempDir private Path folder;

  private static Pack pack() {
    PackReading read =
        PackLibrary.onClassPath().read(PackId.parse("wren-handset/charging")).orElseThrow();
    return ((PackReading.Readable) read).pack();
  }

  private String said(String... typed) throws IOException {
    Pack pack = pack();
    Path file = folder.resolve("slow.yaml");
    Files.writeString(file, SLOW);
    CaseReading read = new CaseReader(pack).read(YamlText.read(file));
    assertThat(read.report()).isEmpty();
    StringWriter out = new StringWriter();
    StreamConsole console =
        new StreamConsole(
            new BufferedReader(new StringReader(String.join("\n", typed))),
            new PrintWriter(out),
            new Screen(80, true, false),
            24,
            true);
    Dialogue.resume(
        console, Engine.create(), pack, ((CaseReading.Readable) read).caseFile(), file, SLOW);
    return out.toString().replaceAll("\\s+", " ");
  }

  private List<String> kept() throws IOException {
    return Files.readString(folder.resolve("slow.yaml"))
        .lines()
        .filter(l -> l.contains("socket-d"))
        .map(String::strip)
        .toList();
  }

  @Test
  void twoPointsThatAreCompared_areAskedForOneByOne_andTheNumbersLead() throws IOException {
    String said = said("570", "541", "quit");
    assertThat(said)
        .contains("Compare the two data lines")
        .containsSubsequence(
            "Reading: D+ (pin 7)?",
            "Reading: D- (pin 8)?",
            "Replace the protection of the data lines");
    assertThat(kept())
        .containsExactly(
            "- {reading: socket-dp, value: 570 mV}", "- {reading: socket-dm, value: 541 mV}");
  }

  @Test
  void undo_asksForTheReadingAgain_inTheStepThatCompares() throws IOException {
    String said = said("570", "541", "/", "569", "quit");
    assertThat(said.substring(said.indexOf("As if never said: D-")))
        .contains("Reading: D- (pin 8)?")
        .doesNotContain("Pin table at the board's charge socket");
    assertThat(kept())
        .containsExactly(
            "- {reading: socket-dp, value: 570 mV}", "- {reading: socket-dm, value: 569 mV}");
  }

  @Test
  void whoHasNoNumbers_saysWhetherTheyDiffer() throws IOException {
    String said = said("", "", "differs", "quit");
    assertThat(said).containsSubsequence("Not read: D+", "Not read: D-", "What came out?");
    assertThat(Files.readString(folder.resolve("slow.yaml")))
        .contains("{outcome: compare-data-lines, is: differs}");
  }

  @Test
  void stateSeenWithoutANumber_isKeptByItsName_andSlipsAreNot() throws IOException {
    said("NaN", "-5 ohm", "1e9 V", "4k7", "7,0.57", "low", "shor", "quit");
    assertThat(kept())
        .containsExactly("- {reading: socket-dp, is: low}", "- {reading: socket-dm, is: short}");
  }
}
