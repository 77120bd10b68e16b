package org.faultwright.cli.dialogue;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Answers survive the death of the process: a real one, killed without warning (SIGKILL). */
class KilledTerminalTest {

  private static final String PACK = "src/test/resources/packs/plover-tablet/sound/pack.yaml";
  private static final String PROMPT = "Answer: ";

  @TempDir private Path folder;

  @Test
  void everyAnswerIsOnDisk_whenTheProcessIsKilledAtTheNextQuestion() throws Exception {
    Path file = folder.resolve("killed.yaml");
    Process process = start("--as", file.toString());
    // complaint, said, traces, looks, check list, goal, data, ceiling, value, tools, skill,
    // consents, outcome
    answer(process, "1", "1", "", "-1", "", "", "", "90", "", "", "", "1", "2");
    kill(process);

    CaseFile kept = read(file);
    assertThat(kept.intake().ceiling()).hasValue(90);
    assertThat(words(kept))
        .containsExactly(
            "complaint: no-sound",
            "history: dropped, said: yes",
            "symptom: battery-bulges, is: absent",
            "consent: opening, given: yes",
            "bench: sound-on",
            "outcome: press-check, is: steady");

    Process again = start("--resume", file.toString());
    answer(again, "undo");
    kill(again);
    // the bench was told with the outcome, and goes with it
    assertThat(words(read(file))).hasSize(4).endsWith("consent: opening, given: yes");
    assertThat(Files.list(folder)).as("nothing half written stays behind").hasSize(1);
  }

  private static Process start(String... how) throws IOException {
    List<String> command =
        new java.util.ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Dfile.encoding=UTF-8",
                "-cp",
                System.getProperty("java.class.path"),
                "org.faultwright.cli.Main",
                "diagnose",
                "--plain",
                "--pack",
                PACK));
    command.addAll(List.of(how));
    return new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
  }

  /** Answers one question after the other, and waits for the one after the last. */
  private static void answer(Process process, String... typed) throws IOException {
    OutputStream keys = process.getOutputStream();
    awaitQuestion(process);
    for (String line : typed) {
      keys.write((line + "\n").getBytes(UTF_8));
      keys.flush();
      awaitQuestion(process);
    }
  }

  private static void awaitQuestion(Process process) throws IOException {
    InputStream said = process.getInputStream();
    StringBuilder text = new StringBuilder();
    while (!text.toString().endsWith(PROMPT)) {
      int b = said.read();
      assertThat(b).as("the process ended early, having said: %s", text).isNotNegative();
      text.append((char) b);
    }
  }

  private static void kill(Process process) throws InterruptedException {
    process.destroyForcibly();
    process.waitFor();
  }

  private static CaseFile read(Path file) {
    CaseReading reading = new CaseReader(pack()).read(YamlText.read(file));
    assertThat(reading.report()).isEmpty();
    return ((CaseReading.Readable) reading).caseFile();
  }

  private static Pack pack() {
    return ((PackReading.Readable) new PackReader().read(YamlText.read(Path.of(PACK)))).pack();
  }

  private static List<String> words(CaseFile kept) {
    return kept.facts().stream().map(Told::fact).map(KilledTerminalTest::words).toList();
  }

  private static String words(Fact fact) {
    if (fact instanceof Fact.Complained f) {
      return "complaint: " + f.complaint();
    } else if (fact instanceof Fact.HistorySaid f) {
      return "history: " + f.history() + ", said: " + (f.happened() ? "yes" : "no");
    } else if (fact instanceof Fact.SymptomNoted f) {
      return "symptom: "
          + f.symptom()
          + ", is: "
          + f.value().name().toLowerCase(java.util.Locale.ROOT);
    } else if (fact instanceof Fact.ConsentAnswered f) {
      return "consent: " + f.consent() + ", given: " + (f.given() ? "yes" : "no");
    } else if (fact instanceof Fact.BenchSet f) {
      return "bench: " + f.state().of() + (f.state().on() ? "" : " off");
    }
    Fact.OutcomeSeen f = (Fact.OutcomeSeen) fact;
    return "outcome: " + f.step() + ", is: " + f.outcome();
  }
}
