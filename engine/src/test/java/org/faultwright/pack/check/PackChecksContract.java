package org.faultwright.pack.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.problem.Problem;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * What every check owes to authors: a page, a file in which it finds exactly one problem, and a
 * near miss in which nobody finds any.
 */
class PackChecksContract {

  private static final Path FIXTURES = Path.of("src/test/resources/checks");
  private static final Path PAGES = Path.of("docs/checks");

  private static PackReading read(PackCheck check, String name) {
    return new PackReader().read(FIXTURES.resolve(check.id()).resolve(name + ".yaml"));
  }

  @TestFactory
  Stream<DynamicTest> brokenFile_yieldsExactlyThatProblem() {
    return PackChecks.all().stream()
        .map(
            check ->
                dynamicTest(
                    check.id(),
                    () -> {
                      PackReading reading = read(check, "broken");
                      assertThat(reading.problems())
                          .as(reading.report())
                          .extracting(Problem::id)
                          .containsExactly(check.id());
                      Problem problem = reading.problems().get(0);
                      assertThat(problem.where().orElseThrow().line()).isGreaterThan(6);
                      assertThat(problem.wayOut()).isNotEmpty();
                      assertThat(problem.message()).doesNotEndWith(".");
                    }));
  }

  @TestFactory
  Stream<DynamicTest> nearMiss_yieldsNothing() {
    return PackChecks.all().stream()
        .map(
            check ->
                dynamicTest(
                    check.id(),
                    () -> {
                      PackReading reading = read(check, "fine");
                      assertThat(reading.problems()).as(reading.report()).isEmpty();
                    }));
  }

  @TestFactory
  Stream<DynamicTest> page_saysWhatAndWhyAndWhatToPrefer() {
    return PackChecks.all().stream()
        .map(
            check ->
                dynamicTest(
                    check.id(),
                    () ->
                        assertThat(PAGES.resolve(check.id() + ".md"))
                            .content()
                            .startsWith("# " + check.id() + "\n")
                            .contains("**What.** ", "**Why.** ", "**Avoid**", "**Prefer**")));
  }

  @Test
  void ids_areNamedOnce() {
    List<String> ids = PackChecks.all().stream().map(PackCheck::id).toList();
    assertThat(ids).doesNotHaveDuplicates().hasSizeGreaterThanOrEqualTo(25);
  }
}
