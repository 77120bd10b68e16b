package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A plan brought on paper. */
class PlanPageTest {

  private static final String CASE =
      """
      case: plan
      format: 1
      title: No sound, "since <yesterday>"
      pack: plover-tablet/sound
      consent: [opening]
      facts:
        - complaint: no-sound
      """;

  @TempDir private Path folder;

  private Shell.Result plan(String... more) throws IOException {
    Path file = Files.writeString(folder.resolve("plan.yaml"), CASE);
    List<String> args = new ArrayList<>(List.of("plan", file.toString()));
    args.addAll(List.of("--depth", "3", "--least", "10", "--seconds", "0.1"));
    args.addAll(List.of("--packs", "src/test/resources/packs"));
    args.addAll(List.of(more));
    return Shell.PLAIN.with("SOURCE_DATE_EPOCH", "1773480600").run(args.toArray(String[]::new));
  }

  private String in(String name) {
    return folder.resolve(name).toString();
  }

  @Test
  void kindFollowsFromTheEnding_andNothingElseIsPrinted() throws IOException {
    Shell.Result result = plan("--page", in("a.html"), "--page", in("b.md"));

    assertThat(result.exitCode()).isZero();
    assertThat(result.out()).isEmpty();
    assertThat(result.err()).contains("wrote " + in("a.html"), "wrote " + in("b.md"));
    assertThat(folder.resolve("a.html"))
        .content()
        .startsWith("<!DOCTYPE html>\n<html lang=\"en\">")
        .contains("<h1>Plan: No sound, &quot;since &lt;yesterday&gt;&quot;</h1>")
        .contains("14 March 2026, 09:30 UTC");
    assertThat(folder.resolve("b.md")).content().startsWith("# Plan: No sound, \"since \\<");
    try (Stream<Path> all = Files.list(folder)) {
      assertThat(all.map(p -> p.getFileName().toString()))
          .containsExactlyInAnyOrder("plan.yaml", "a.html", "b.md");
    }
  }

  @Test
  void quoteAndWorth_areOnThePage_andRulesOfThumbWhereAskedFor() throws IOException {
    assertThat(plan("--page", in("a.md")).exitCode()).isZero();
    assertThat(folder.resolve("a.md"))
        .content()
        .contains("## Repair or not", "of the cases the work costs no more than")
        .doesNotContain("## Beside rules of thumb");
    String price =
        Files.readAllLines(folder.resolve("a.md")).stream()
            .filter(line -> line.startsWith("| Price "))
            .findFirst()
            .orElseThrow();
    assertThat(price).doesNotContain("not known");

    assertThat(plan("--compare", "--page", in("b.md")).exitCode()).isZero();
    assertThat(folder.resolve("b.md"))
        .content()
        .contains("## Beside rules of thumb", "Repairing the likeliest cause first");
  }

  @Test
  void likeliestStepsAlone_areOnThePage_whichSaysHowToSeeMore() throws IOException {
    assertThat(plan("--page-steps", "1", "--page", in("a.md")).exitCode()).isZero();
    assertThat(folder.resolve("a.md"))
        .content()
        .contains("Shown: the likeliest 1 of ", " steps. A result", "--page-steps")
        .contains("(not followed further; ")
        .doesNotContain("go to 2");
    assertThat(plan("--page-steps", "0", "--page", in("b.md")).err())
        .contains("--page-steps must be at least 1: 0");
  }

  @Test
  void jsonIsPrintedBesides() throws IOException {
    assertThat(plan("--json", "--page", in("a.md")).out()).startsWith("{");
  }

  @Test
  void fileThatIsThere_isLeftAlone() throws IOException {
    Files.writeString(folder.resolve("a.html"), "mine");
    Shell.Result result = plan("--page", in("a.html"));

    assertThat(result.exitCode()).isEqualTo(2);
    assertThat(result.err()).contains("already; choose another name, or add --replace");
    assertThat(folder.resolve("a.html")).content().isEqualTo("mine");
  }

  @Test
  void fileThatIsThere_isReplacedWhereWished() throws IOException {
    Files.writeString(folder.resolve("a.html"), "mine");

    assertThat(plan("--replace", "--page", in("a.html")).exitCode()).isZero();
    assertThat(folder.resolve("a.html")).content().startsWith("<!DOCTYPE html>");
  }

  @Test
  void otherEndingsAndMissingFolders_areRefused() throws IOException {
    assertThat(plan("--page", in("a.pdf")).err()).contains("ends in .html or .md: ");
    assertThat(plan("--page", in("none/a.md")).err()).contains("there is no folder for ");
    assertThat(plan("--page", in("none/a.md")).exitCode()).isEqualTo(2);
    Files.createDirectory(folder.resolve("d.md"));
    assertThat(plan("--page", in("d.md")).err()).contains("is a folder; --page takes a file");
  }
}
