package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseReader;
import org.faultwright.interchange.ExchangeRule;
import org.faultwright.pack.Pack;
import org.faultwright.pack.check.PackCheck;
import org.faultwright.pack.check.PackChecks;
import org.faultwright.pack.format.Findings;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * What every problem of reading owes to authors: a page, a file in which it is found once, at the
 * line marked with "here", and a near miss in which nothing is found.
 */
class ReaderProblemsContract {

  static final Path FIXTURES = Path.of("src/test/resources/checks");
  private static final Path PAGES = Path.of("docs/checks");

  /** Found when a pack is compiled. */
  private static final Set<String> OF_COMPILING = Set.of("shares-unattainable", "pack-too-wide");

  private static final Pack FULL =
      ((PackReading.Readable) new PackReader(PackReaderTest.FRAGMENTS).read(PackReaderTest.FULL))
          .pack();

  static YamlText fixture(String id, String name) {
    return YamlText.read(FIXTURES.resolve(id).resolve(name + ".yaml"));
  }

  static boolean isCase(YamlText text) {
    return text.root().filter(r -> r.entry("case").isPresent()).isPresent();
  }

  static List<Problem> problems(YamlText text) {
    return isCase(text)
        ? new CaseReader(FULL).read(text).problems()
        : new PackReader().read(text).problems();
  }

  private static Stream<DynamicTest> each(Consumer<String> test, List<String> ids) {
    return ids.stream().map(id -> dynamicTest(id, () -> test.accept(id)));
  }

  @TestFactory
  Stream<DynamicTest> brokenFile_yieldsExactlyThatProblemAtItsLine() {
    return each(
        id -> {
          YamlText text = fixture(id, "broken");
          List<Problem> problems = problems(text);
          assertThat(problems).extracting(Problem::id).containsExactly(id);
          Problem problem = problems.get(0);
          assertThat(problem.wayOut()).as("way out").isPresent();
          assertThat(problem.message()).doesNotEndWith(".").doesNotContain("org.", "Exception");
          Span at = problem.where().orElseThrow();
          String line = text.source().line(at.file(), at.line()).orElseThrow();
          assertThat(at.column() - 1 + at.length())
              .as("end of the span in: " + line)
              .isLessThanOrEqualTo(Math.max(1, line.length() + 1));
          if (text.text().contains("# here")) {
            assertThat(line).contains("# here");
          }
        },
        ReaderProblems.withFixtures());
  }

  @TestFactory
  Stream<DynamicTest> nearMiss_yieldsNothing() {
    return each(
        id -> assertThat(problems(fixture(id, "fine"))).isEmpty(), ReaderProblems.withFixtures());
  }

  @Test
  void mostBrokenFiles_markTheLine() {
    long marked =
        ReaderProblems.withFixtures().stream()
            .filter(id -> fixture(id, "broken").text().contains("# here"))
            .count();
    assertThat(marked).isGreaterThanOrEqualTo(ReaderProblems.withFixtures().size() - 3);
  }

  @TestFactory
  Stream<DynamicTest> page_saysWhatAndWhyAndWhatToPrefer() {
    return each(
        id ->
            assertThat(PAGES.resolve(id + ".md"))
                .content()
                .startsWith("# " + id + "\n")
                .contains("**What.** ", "**Why.** ", "**Avoid**", "**Prefer**"),
        ReaderProblems.ids());
  }

  @Test
  void everyPage_isOfAProblemThatIsFound() throws IOException {
    TreeSet<String> known = new TreeSet<>(ReaderProblems.ids());
    PackChecks.all().stream().map(PackCheck::id).forEach(known::add);
    known.addAll(OF_COMPILING);
    Stream.of(ExchangeRule.values()).map(ExchangeRule::id).forEach(known::add);
    try (Stream<Path> pages = Files.list(PAGES)) {
      assertThat(pages.map(p -> p.getFileName().toString().replace(".md", "")))
          .containsExactlyInAnyOrderElementsOf(known);
    }
  }

  @Test
  void everyFixture_isReadBySomebody() throws IOException {
    TreeSet<String> known = new TreeSet<>(ReaderProblems.withFixtures());
    PackChecks.all().stream().map(PackCheck::id).forEach(known::add);
    try (Stream<Path> folders = Files.list(FIXTURES)) {
      assertThat(folders.map(p -> p.getFileName().toString()))
          .containsExactlyInAnyOrderElementsOf(known);
    }
  }

  @Test
  void tooManyProblems_endWithOneThatSaysSo() {
    StringBuilder text = new StringBuilder("pack: a/b\n");
    for (int i = 0; i < 1_000; i++) {
      text.append("key-").append(i).append(": x\n");
    }
    PackReading reading = new PackReader().read("f.yaml", text.toString());
    assertThat(reading.problems()).hasSize(Findings.MOST + 1);
    assertThat(reading.problems()).extracting(Problem::id).contains("too-many-problems");
    Optional<Problem> last = reading.problems().stream().reduce((a, b) -> b);
    assertThat(last.orElseThrow().id()).isIn("too-many-problems", "unknown-key");
  }
}
