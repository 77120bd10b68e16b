package org.faultwright.pack.reader;

import static java.time.Duration.ofSeconds;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.faultwright.casefile.CaseReader;
import org.faultwright.casefile.CaseReading;
import org.faultwright.pack.Pack;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Problem;
import org.faultwright.problem.SourceTexts;

/**
 * Whatever is done to a sound file, reading it ends, with a result or with problems in the file.
 */
class PackReaderProperty {

  private static final String PACK = read("full.yaml");
  private static final String CASE = read("case.yaml");
  private static final String FILE = "f.yaml";

  private static final PackReader READER = new PackReader(PackReaderTest.FRAGMENTS);
  private static final Pack FULL = ((PackReading.Readable) READER.read(FILE, PACK)).pack();

  /** Bits of text that mean something to YAML or to the reader. */
  private static final List<String> BITS =
      List.of(
          "\n",
          " ",
          "  ",
          ":",
          ": ",
          "- ",
          "[",
          "]",
          "{",
          "}",
          ",",
          "#",
          "&a ",
          "*a",
          "!x ",
          "|",
          ">",
          "\"",
          "'",
          "\t",
          "\u0000",
          "\uFEFF",
          "\uD83D\uDD0B",
          "\uD800",
          "%",
          "0",
          "1",
          "-1",
          "1e999",
          "999999999999999999999",
          "NaN",
          "100 %",
          "x0",
          "OL",
          "5 V",
          "? ",
          "<<: ",
          "---\n",
          "normal",
          "nothing",
          "unlisted",
          "is",
          "any",
          "causes:\n",
          "~",
          "yes");

  private static String read(String name) {
    try {
      return Files.readString(PackReaderTest.FULL.resolveSibling(name));
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  /** One to four changes: a stretch cut out, doubled or moved, a bit put in, or the end cut off. */
  private static String mutated(String text, Random random) {
    StringBuilder out = new StringBuilder(text);
    int changes = 1 + random.nextInt(4);
    for (int i = 0; i < changes && out.length() > 0; i++) {
      int from = random.nextInt(out.length());
      int to = Math.min(out.length(), from + 1 + random.nextInt(30));
      String stretch = out.substring(from, to);
      switch (random.nextInt(6)) {
        case 0 -> out.delete(from, to);
        case 1 -> out.insert(to, stretch);
        case 2 -> out.insert(random.nextInt(out.length()), stretch);
        case 3 -> out.insert(from, BITS.get(random.nextInt(BITS.size())));
        case 4 -> out.replace(from, to, BITS.get(random.nextInt(BITS.size())));
        default -> {
          if (random.nextInt(4) == 0) {
            out.setLength(from);
          } else {
            out.setCharAt(from, (char) (32 + random.nextInt(95)));
          }
        }
      }
    }
    return out.toString();
  }

  private static void allWithin(List<Problem> problems, SourceTexts texts) {
    for (Problem p : problems) {
      assertThat(p.where()).as(p.toString()).isPresent();
      var at = p.where().orElseThrow();
      assertThat(texts.line(at.file(), at.line())).as(p.toString()).isPresent();
      String line = texts.line(at.file(), at.line()).orElseThrow();
      assertThat(at.column()).as(p.toString()).isBetween(1, line.length() + 1);
      assertThat(p.message()).isNotBlank().doesNotContain("Exception", "org.faultwright", "null");
    }
  }

  @Property(tries = 500)
  void changedPack_isReadOrHasProblemsWithinTheFile(@ForAll long seed) {
    String text = mutated(PACK, new Random(seed));
    PackReading reading = assertTimeoutPreemptively(ofSeconds(20), () -> READER.read(FILE, text));
    allWithin(reading.problems(), reading.texts());
    assertThat(reading.report()).isNotNull();
    if (reading instanceof PackReading.Unreadable) {
      assertThat(reading.problems()).isNotEmpty();
    }
  }

  @Property(tries = 400)
  void changedCase_isReadOrHasProblemsWithinTheFile(@ForAll long seed) {
    String text = mutated(CASE, new Random(seed));
    CaseReading reading = new CaseReader(FULL).read(YamlText.of(FILE, text));
    allWithin(reading.problems(), reading.texts());
    if (reading instanceof CaseReading.Unreadable) {
      assertThat(reading.problems()).isNotEmpty();
    }
  }

  @Property(tries = 150)
  void cutOffBytes_areReadOrHaveProblemsWithinTheFile(@ForAll long seed) {
    Random random = new Random(seed);
    byte[] whole = PACK.getBytes(StandardCharsets.UTF_8);
    byte[] part = Arrays.copyOf(whole, random.nextInt(whole.length));
    if (part.length > 0 && random.nextBoolean()) {
      part[random.nextInt(part.length)] = (byte) random.nextInt(256);
    }
    PackReading reading = READER.read(YamlText.of(FILE, part));
    allWithin(reading.problems(), reading.texts());
    if (reading instanceof PackReading.Unreadable) {
      assertThat(reading.problems()).isNotEmpty();
    }
  }

  @Property(tries = 50)
  void order_ofSections_doesNotMatter(@ForAll long seed) {
    List<String> sections = new ArrayList<>(List.of(PACK.split("\n(?=[a-z-]+:)")));
    Collections.shuffle(sections, new Random(seed));
    PackReading reading = READER.read(FILE, String.join("\n", sections) + "\n");
    assertThat(reading.report()).isEmpty();
    Pack pack = ((PackReading.Readable) reading).pack();
    assertThat(pack).isEqualTo(FULL);
  }
}
