package org.faultwright.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What the README shows is what comes out. */
class ReadmeGolden {

  private static final Path README = Path.of("../../README.md");
  private static final String LEFT_OUT = "[...]";

  @Test
  void sampleOutput_isWhatTheCommandPrints() throws IOException {
    Shell.Result result =
        Shell.PLAIN
            .with("LANG", "en_GB.UTF-8")
            .run("diagnose", "../../examples/cases/wren-charging.yaml");
    List<String> printed = result.out().lines().toList();
    List<String> sample = sample(Files.readString(README));
    assertThat(sample).as("lines of the sample").hasSizeGreaterThan(10);
    int at = 0;
    boolean gap = false;
    for (String line : sample) {
      if (line.equals(LEFT_OUT) || gap && line.isEmpty()) {
        gap = true;
        continue;
      }
      int found = gap ? indexFrom(printed, at, line) : at;
      assertThat(found < printed.size() ? printed.get(found) : "the end of the output")
          .as("line %d of what is printed", found + 1)
          .isEqualTo(line);
      at = found + 1;
      gap = false;
    }
    assertThat(gap || at == printed.size()).as("the sample goes on to the end").isTrue();
  }

  private static int indexFrom(List<String> lines, int from, String wanted) {
    for (int i = from; i < lines.size(); i++) {
      if (lines.get(i).equals(wanted)) {
        return i;
      }
    }
    return lines.size();
  }

  private static List<String> sample(String readme) {
    String start = "```text\n";
    int from = readme.indexOf(start) + start.length();
    return readme.substring(from, readme.indexOf("```", from)).lines().toList();
  }
}
