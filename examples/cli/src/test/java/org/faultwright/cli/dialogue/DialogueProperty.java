package org.faultwright.cli.dialogue;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.cli.text.Screen;
import org.faultwright.diagnosis.Engine;
import org.faultwright.pack.Pack;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;

/** Whatever is typed, in whatever order: it goes on, it fits, and the case on disk can be read. */
class DialogueProperty {

  private static final Path PACK =
      Path.of("src/test/resources/packs/plover-tablet/sound/pack.yaml");
  private static final Pack PLOVER =
      ((PackReading.Readable) new PackReader().read(YamlText.read(PACK))).pack();
  private static final Engine ENGINE = Engine.create();
  private static final Screen SCREEN = new Screen(80, true, false);

  @Provide
  Arbitrary<List<String>> typed() {
    Stream<String> verbs = Verb.words().stream().filter(w -> !w.equals("quit"));
    Stream<String> others =
        Stream.of(
            "1",
            "2",
            "3",
            "-1",
            "~2",
            "1 2",
            "",
            "0",
            "-",
            "~",
            "+",
            "*",
            "/",
            ".",
            "?",
            "OL",
            "8.1",
            "0.1",
            "4k7",
            "x",
            "m",
            "yes",
            "other 1",
            "other 2",
            "other coil",
            "why 2",
            "why not amp",
            "if 1",
            "if look",
            "out 1",
            "out 3",
            "bench 1",
            "bench 2",
            "note a \"b\" \u00b5 \\ : {",
            "can't-do it is stuck",
            "\u001b[A",
            "\u0000",
            "99999999999");
    return Arbitraries.of(Stream.concat(verbs, others).toList()).list().ofMinSize(3).ofMaxSize(30);
  }

  @Property(tries = 40)
  void anyLines_leaveACaseThatIsReadBack(@ForAll("typed") List<String> lines) throws IOException {
    Path folder = Files.createTempDirectory("dialogue");
    Path file = folder.resolve("c.yaml");
    try {
      StringBuilder intake = new StringBuilder("1\n");
      intake.append("\n".repeat(10)).append("1\n"); // no more said; opening agreed
      CheckingConsole console = new CheckingConsole(file, intake + String.join("\n", lines) + "\n");
      Dialogue.begin(
          console, ENGINE, PLOVER, CaseFile.begun("c", PLOVER.id(), PLOVER.version()), file);
      assertThat(console.questions).isPositive();
    } finally {
      try (Stream<Path> left = Files.list(folder)) {
        for (Path p : left.toList()) {
          Files.delete(p);
        }
      }
      Files.delete(folder);
    }
  }

  /** Reads the case back at every question, as if the power failed there. */
  private static final class CheckingConsole implements Console {
    private final StreamConsole console;
    private final Path file;
    private int questions;

    CheckingConsole(Path file, String typed) {
      this.file = file;
      this.console =
          new StreamConsole(
              new BufferedReader(new StringReader(typed)),
              new PrintWriter(new StringWriter()),
              SCREEN,
              24,
              false);
    }

    @Override
    public Screen screen() {
      return SCREEN;
    }

    @Override
    public int rows() {
      return 24;
    }

    @Override
    public boolean isPlain() {
      return false;
    }

    @Override
    public void show(List<String> lines) {
      assertThat(lines).as("lines below 24").hasSizeLessThan(24);
      assertThat(lines).allMatch(line -> line.length() <= 80);
      console.show(lines);
    }

    @Override
    public Optional<String> ask(Collection<String> words) {
      questions++;
      if (Files.exists(file)) {
        CaseReading reading = new CaseReader(PLOVER).read(YamlText.read(file));
        assertThat(reading.report()).isEmpty();
      }
      return console.ask(words);
    }

    @Override
    public void close() {
      console.close();
    }
  }
}
