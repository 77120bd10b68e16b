package org.faultwright.pack.yaml;

import static java.time.Duration.ofSeconds;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class YamlTextTest {

  private static YamlText of(String text) {
    return YamlText.of("f.yaml", text);
  }

  private static Problem only(YamlText text) {
    assertThat(text.problems()).hasSize(1);
    assertThat(text.root()).isEmpty();
    return text.problems().get(0);
  }

  @Test
  void nodes_knowWhereTheyStand() {
    YamlText text = of("pack: wren\ncauses:\n  fuse: {prior: '2 %', of:   [a, bc]}\n");
    YamlMap fuse = text.root().orElseThrow().map("causes").orElseThrow().map("fuse").orElseThrow();
    assertThat(fuse.entry("prior").orElseThrow().key().at())
        .isEqualTo(new Span("f.yaml", 3, 10, 5));
    assertThat(fuse.entry("prior").orElseThrow().at()).isEqualTo(new Span("f.yaml", 3, 17, 5));
    YamlNode.YamlList list = (YamlNode.YamlList) fuse.value("of").orElseThrow();
    assertThat(list.items().get(1).at()).isEqualTo(new Span("f.yaml", 3, 34, 2));
    assertThat(text.problems()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r\n", "\r"})
  void lineEnds_ofAllSystemsCount(String end) {
    YamlText text = of("a: 1" + end + "b: 2" + end + "c: x y" + end);
    assertThat(text.root().orElseThrow().entry("c").orElseThrow().at())
        .isEqualTo(new Span("f.yaml", 3, 4, 3));
    assertThat(text.source().line("f.yaml", 3)).contains("c: x y");
  }

  @Test
  void columns_countCharactersAndNotHalvesOfThem() {
    YamlText text = of("{a: \"\uD83D\uDD0B\uD83D\uDD0B\", b: x}");
    assertThat(text.root().orElseThrow().entry("b").orElseThrow().key().at().column())
        .isEqualTo(11);
  }

  @Test
  void byteOrderMark_isSkipped() {
    byte[] bytes = "\uFEFFpack: wren\n".getBytes(StandardCharsets.UTF_8);
    YamlText text = YamlText.of("f.yaml", bytes);
    assertThat(text.problems()).isEmpty();
    assertThat(text.root().orElseThrow().entries().get(0).key().at().column()).isEqualTo(1);
  }

  @Test
  void otherEncodings_areToldApart() {
    Problem p = only(YamlText.of("f.yaml", "pack: wren\n".getBytes(StandardCharsets.UTF_16)));
    assertThat(p.id()).isEqualTo("not-text");
    assertThat(p.wayOut()).contains("save it as plain text in UTF-8");
  }

  @Test
  void binaryFile_isOneProblem() {
    byte[] bytes = new byte[10_000];
    new Random(7).nextBytes(bytes);
    assertThat(only(YamlText.of("f.yaml", bytes)).id()).isEqualTo("not-text");
  }

  @Test
  void fileOf10Megabytes_isRefusedBeforeItIsRead(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("big.yaml");
    Files.writeString(file, "a: [" + "1, ".repeat(3_500_000) + "1]\n");
    assertThat(Files.size(file)).isGreaterThan(10_000_000);
    assertThat(only(YamlText.read(file)).id()).isEqualTo("file-too-large");
    Problem p = only(of("a: " + "x".repeat(YamlLimits.FILE_BYTES)));
    assertThat(p.id()).isEqualTo("file-too-large");
    assertThat(p.message()).isEqualTo("the file must not be larger than 1024 KiB");
  }

  @ParameterizedTest
  @ValueSource(strings = {"[", "{a: ", "- ", "? "})
  void tenThousandLevels_areOneProblemAndNoOverflow(String level) {
    YamlText text =
        assertTimeoutPreemptively(ofSeconds(10), () -> of("a: \n " + level.repeat(10_000)));
    assertThat(only(text).id()).isIn("too-deep", "not-yaml");
  }

  @Test
  void tenThousandIndentedLevels_areOneProblem() {
    StringBuilder deep = new StringBuilder();
    for (int i = 0; i < 1_000; i++) {
      deep.append(" ".repeat(i)).append("a:\n");
    }
    assertThat(only(of(deep.toString())).id()).isEqualTo("too-deep");
  }

  @Test
  void tooManyNodes_areOneProblem() {
    String many = "1,".repeat(YamlLimits.NODES);
    assertThat(only(of("a: [" + many + "1]\n")).id()).isEqualTo("too-many-nodes");
    String fewer = "1,".repeat(YamlLimits.NODES - 10);
    assertThat(of("a: [" + fewer + "1]\n").problems()).isEmpty();
  }

  @Test
  void truncatedFile_isAProblemWithinTheFile() {
    Problem p = only(of("pack: wren\ncauses: {a: {prior: 2 %"));
    assertThat(p.id()).isEqualTo("not-yaml");
    assertThat(p.message())
        .isEqualTo("the file ends too early: something that was opened is not closed");
    assertThat(p.where().orElseThrow().line()).isEqualTo(2);
  }

  @Test
  void missingFile_isAProblemWithoutAPlace(@TempDir Path folder) {
    Problem p = only(YamlText.read(folder.resolve("nowhere.yaml")));
    assertThat(p.id()).isEqualTo("unreadable-file");
    assertThat(p.where()).isEmpty();
    assertThat(only(YamlText.read(folder)).id()).isEqualTo("unreadable-file");
  }

  @Test
  void billionLaughs_areRefusedByTheFirstAnchor() {
    String laughs =
        """
        a: &a [x, x, x, x, x, x, x, x, x]
        b: &b [*a, *a, *a, *a, *a, *a, *a, *a, *a]
        c: &c [*b, *b, *b, *b, *b, *b, *b, *b, *b]
        """;
    YamlText text = of(laughs);
    assertThat(text.root()).isEmpty();
    assertThat(text.problems()).extracting(Problem::id).containsOnly("alias");
  }

  @Test
  void problemsOfTheText_stopAtALimit() {
    YamlText text = of("a: 1\n".repeat(5_000));
    assertThat(text.problems()).hasSize(YamlLimits.PROBLEMS);
  }

  @Test
  void emptyValues_areKnown() {
    YamlMap map = of("a:\nb: ~\nc: null\nd: ''\n").root().orElseThrow();
    assertThat(map.entries())
        .extracting(e -> ((YamlScalar) e.value()).isEmpty())
        .containsExactly(true, true, true, false);
  }

  @Test
  void directive_isRefused() {
    assertThat(only(of("%YAML 1.1\n---\na: 1\n")).id()).isEqualTo("tag");
  }
}
