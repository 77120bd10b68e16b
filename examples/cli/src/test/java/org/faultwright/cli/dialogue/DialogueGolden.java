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
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.cli.Golden;
import org.faultwright.cli.text.Screen;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How a dialogue looks: the screens of a terminal of 80 columns and 24 rows, one after the other.
 */
class DialogueGolden {

  private static final Path PACK =
      Path.of("src/test/resources/packs/plover-tablet/sound/pack.yaml");
  private static final Screen SCREEN = new Screen(80, true, false);

  @TempDir private Path folder;

  /** From the counter to the end, with wrong keys on the way. */
  @Test
  void wholeCase() throws IOException {
    String seen =
        drawn(
            "9", // no such complaint
            "1",
            "/", // back, and once more
            "1",
            "1",
            "",
            "x", // no number
            "~2",
            "", // check list
            "2",
            "/",
            "1",
            "yes",
            "eighty", // no amount
            "80",
            "180",
            "~1", // means nothing here
            "", // no tool is missing
            "", // what is done at this bench stays
            "1",
            "3", // no such outcome
            "pla", // by its letters
            "?",
            "x",
            "holds", // means nothing here
            "*",
            "",
            "if",
            "",
            "0", // cannot tell
            "/",
            "note customer waits",
            "quit");
    Golden.assertSame("dialogue-whole-case", seen);
  }

  /** At a point of a pin table, and at a hold with its alarm. */
  @Test
  void readingsAndAlarms() throws IOException {
    String seen =
        drawn(
            "1",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "1", // taken in, opening agreed
            "other",
            "coil",
            "",
            "8,2 volt", // of another kind
            "~",
            "-",
            "wire broken",
            "/",
            "other coil",
            "OL",
            "/",
            "other coil",
            "8.2",
            "why not amp",
            "",
            "bench 2",
            "seen",
            "1",
            "",
            "1",
            "out 99",
            "out 2",
            "facts",
            "",
            "undo",
            "undo",
            "undo",
            "undo",
            "undo",
            "undo",
            "undo",
            "undo");
    Golden.assertSame("dialogue-readings-and-alarms", seen);
  }

  /** Through a repair and its proof to the end. */
  @Test
  void toTheEnd() throws IOException {
    String seen =
        drawn(
            "1",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "1", // taken in, opening agreed
            "2", // steady
            "other look-at-grille",
            "1", // packed
            "1", // brushed clean
            "1", // still silent
            "/",
            "2", // no, a tone is heard
            "1"); // the end
    Golden.assertSame("dialogue-to-the-end", seen.substring(seen.indexOf("NEXT")));
  }

  /** A case whose facts cannot all be true, gone on with. */
  @Test
  void impossible() throws IOException {
    Path cases = PACK.resolveSibling("cases");
    Path file = Files.copy(cases.resolve("two-looks.yaml"), folder.resolve("two-looks.yaml"));
    String text = Files.readString(file);
    CaseFile caseFile =
        ((CaseReading.Readable) new CaseReader(pack()).read(YamlText.read(file))).caseFile();
    try (RecordingTerminal terminal =
        new RecordingTerminal(
            SCREEN, List.of("why amp", "", "if", "", "7", "out 3", "facts", ""))) {
      Dialogue.resume(terminal, Engine.create(), pack(), caseFile, file, text);
      Golden.assertSame("dialogue-impossible", terminal.record());
    }
    CaseReading kept = new CaseReader(pack()).read(YamlText.read(file));
    assertThat(kept.report()).isEmpty();
    assertThat(((CaseReading.Readable) kept).caseFile().facts()).hasSize(2);
  }

  /** The same for a screen reader. */
  @Test
  void plain() throws IOException {
    StringWriter out = new StringWriter();
    String typed =
        String.join(
            "\n", "1", "", "", "", "", "", "", "", "", "", "", "1", "rubbish", "2", "0", "why", "",
            "quit");
    StreamConsole console =
        new StreamConsole(
            new BufferedReader(new StringReader(typed)), new PrintWriter(out), SCREEN, 24, true);
    begin(console);
    String said = out.toString().replace(System.lineSeparator(), "\n");
    assertThat(said).doesNotContain("\u2588").doesNotContain("\u001b").doesNotContain("---");
    Golden.assertSame("dialogue-plain", said);
  }

  private String drawn(String... typed) throws IOException {
    try (RecordingTerminal terminal = new RecordingTerminal(SCREEN, List.of(typed))) {
      begin(terminal);
      String record = terminal.record();
      assertThat(record.lines()).allMatch(line -> line.length() <= 80);
      return record;
    }
  }

  private void begin(Console console) throws IOException {
    Pack pack = pack();
    CaseFile empty = CaseFile.begun("plover-7", pack.id(), pack.version());
    Path file = folder.resolve("plover-7.yaml");
    Dialogue.begin(console, Engine.create(), pack, empty, file);
    assertThat(Files.readString(file)).startsWith("case: plover-7\n");
  }

  private static Pack pack() {
    return ((PackReading.Readable) new PackReader().read(YamlText.read(PACK))).pack();
  }
}
