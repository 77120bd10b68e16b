package org.faultwright.interchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.faultwright.faulttree.AnalysisLimits;
import org.faultwright.faulttree.EventName;
import org.faultwright.faulttree.FaultTree;
import org.faultwright.faulttree.RandomTrees;
import org.faultwright.faulttree.TreeAnalysis;
import org.faultwright.faulttree.TreeNetwork;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Severity;

/**
 * Whatever a file holds, reading it ends, with a value or with problems at places that exist; and
 * what was read can be worked with.
 */
class AnyTextProperty {

  private static final String MODELS = "../examples/models/";

  private static final List<String> PIECES =
      List.of(
          "<",
          ">",
          "/>",
          "\"",
          "'",
          "&",
          "&amp;",
          "&x;",
          "<!--",
          "-->",
          "<![CDATA[",
          "]]>",
          "<?x",
          "?>",
          "<!DOCTYPE a>",
          "\0",
          "\ufeff",
          "\ud83d\ude00",
          "{",
          "}",
          "(",
          ")",
          "[",
          ";",
          "|",
          ",",
          "//",
          "/*",
          "*/",
          "table",
          "default",
          "variable a",
          "1e999",
          "-1",
          "NaN",
          "0.5",
          " name=\"T\"",
          "<or>",
          "</or>",
          "<not>",
          "\r",
          "\n",
          "\u2028",
          "\t");

  @Property(tries = 400)
  void openPsa_isReadOrRefused(@ForAll long seed) {
    Reading<FaultTree> reading =
        OpenPsa.read(mutated(text("pressure-tank.xml"), seed, "t.xml"), OptionalDouble.empty());
    assertSound(reading);
    if (reading instanceof Reading.Readable<FaultTree> readable) {
      FaultTree tree = readable.value();
      TreeNetwork.of(tree);
      for (EventName top : tree.roots()) {
        TreeAnalysis.of(tree, top, AnalysisLimits.USUAL);
      }
    }
  }

  @Property(tries = 400)
  void bif_isReadOrRefused(@ForAll long seed) {
    Reading<BayesNetwork> reading = Bif.read(mutated(text("chest-clinic.bif"), seed, "n.bif"));
    assertSound(reading);
    if (reading instanceof Reading.Readable<BayesNetwork> readable) {
      readable.value().tables();
    }
  }

  /** Each element of a written tree taken out, so that the rest is well-formed and wrong. */
  @Property(tries = 200)
  void openPsa_isReadOrRefused_whereElementsAreGone(@ForAll long seed) {
    String text = OpenPsa.write(RandomTrees.any(seed));
    SplittableRandom random = new SplittableRandom(seed);
    List<String> lines = new java.util.ArrayList<>(text.lines().toList());
    List<Integer> single =
        java.util.stream.IntStream.range(0, lines.size())
            .filter(i -> lines.get(i).endsWith("/>"))
            .boxed()
            .toList();
    lines.remove((int) single.get(random.nextInt(single.size())));
    assertSound(
        OpenPsa.read(ExchangeText.of("t.xml", String.join("\n", lines)), OptionalDouble.empty()));
  }

  private static void assertSound(Reading<?> reading) {
    boolean errors = reading.problems().stream().anyMatch(p -> p.severity() == Severity.ERROR);
    assertThat(errors).isEqualTo(reading instanceof Reading.Unreadable);
    for (Problem p : reading.problems()) {
      assertThat(p.message()).isNotBlank().doesNotContain("Exception");
      assertThat(p.wayOut()).as(p.message()).isPresent();
      p.where()
          .ifPresent(
              at ->
                  assertThat(reading.texts().line(at.file(), at.line())).as("%s", at).isPresent());
    }
    assertThat(reading.report()).isNotNull();
  }

  private static ExchangeText mutated(String text, long seed, String name) {
    SplittableRandom random = new SplittableRandom(seed);
    StringBuilder changed = new StringBuilder(text);
    for (int i = random.nextInt(1, 4); i > 0; i--) {
      int at = random.nextInt(changed.length());
      switch (random.nextInt(4)) {
        case 0 -> changed.insert(at, PIECES.get(random.nextInt(PIECES.size())));
        case 1 -> changed.delete(at, Math.min(changed.length(), at + random.nextInt(1, 30)));
        case 2 -> changed.setLength(Math.max(1, at));
        default -> {
          int from = random.nextInt(changed.length());
          int to = Math.min(changed.length(), from + random.nextInt(1, 60));
          changed.insert(at, changed.substring(from, to));
        }
      }
    }
    try {
      return ExchangeText.read(
          name, new ByteArrayInputStream(changed.toString().getBytes(StandardCharsets.UTF_8)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String text(String model) {
    try {
      return Files.readString(Path.of(MODELS, model));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
