package org.faultwright.pack.reader;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.faultwright.casefile.CaseReader;
import org.faultwright.pack.Pack;
import org.faultwright.pack.yaml.YamlNode;
import org.faultwright.pack.yaml.YamlNode.YamlList;
import org.faultwright.pack.yaml.YamlNode.YamlMap;
import org.faultwright.pack.yaml.YamlNode.YamlScalar;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.problem.Problem;
import org.faultwright.problem.Span;
import org.junit.jupiter.api.Test;

/**
 * A slip is one problem. Every word of a sound file is misspelt in turn, by swapping two
 * neighbouring letters: whenever the reader says that it does not know the word, it says nothing
 * else.
 */
class SlipTest {

  private static final PackReader READER = new PackReader(PackReaderTest.FRAGMENTS);
  private static final Pack FULL = ((PackReading.Readable) READER.read(PackReaderTest.FULL)).pack();

  @Test
  void slipInAPack_isTheOnlyProblem() throws IOException {
    String text = Files.readString(PackReaderTest.FULL);
    assertThat(slipsFound(text, t -> READER.read(t).problems())).isGreaterThan(250);
  }

  @Test
  void slipInACase_isTheOnlyProblem() throws IOException {
    String text = Files.readString(PackReaderTest.FULL.resolveSibling("case.yaml"));
    CaseReader reader = new CaseReader(FULL);
    assertThat(slipsFound(text, t -> reader.read(t).problems())).isGreaterThan(40);
  }

  private static int slipsFound(String text, Function<YamlText, List<Problem>> read) {
    int found = 0;
    for (YamlScalar word : words(YamlText.of("f.yaml", text).root().orElseThrow())) {
      Optional<String> misspelt = misspelt(text, word);
      if (misspelt.isPresent()) {
        List<Problem> problems = read.apply(YamlText.of("f.yaml", misspelt.get()));
        boolean unknown =
            problems.stream()
                .anyMatch(
                    p -> p.id().startsWith("unknown-") && p.where().equals(Optional.of(word.at())));
        if (unknown) {
          found++;
          assertThat(problems)
              .as("'%s' in line %d misspelt", word.text(), word.at().line())
              .hasSize(1);
          assertThat(problems.get(0).wayOut().orElseThrow()).contains("'" + word.text() + "'");
        }
      }
    }
    return found;
  }

  private static List<YamlScalar> words(YamlNode node) {
    List<YamlScalar> words = new ArrayList<>();
    if (node instanceof YamlMap map) {
      map.entries()
          .forEach(
              e -> {
                words.add(e.key());
                words.addAll(words(e.value()));
              });
    } else if (node instanceof YamlList list) {
      list.items().forEach(i -> words.addAll(words(i)));
    } else {
      words.add((YamlScalar) node);
    }
    return words.stream().filter(w -> w.text().matches("[a-z]+(-[a-z]+)*")).toList();
  }

  /** The text with two neighbouring letters of the word swapped, as near its end as they differ. */
  private static Optional<String> misspelt(String text, YamlScalar word) {
    Span at = word.at();
    int start = 0;
    for (int line = 1; line < at.line(); line++) {
      start = text.indexOf('\n', start) + 1;
    }
    start += at.column() - 1;
    for (int i = word.text().length() - 1; i > 0; i--) {
      char a = word.text().charAt(i - 1);
      char b = word.text().charAt(i);
      if (a != b && a != '-' && b != '-') {
        return Optional.of(
            text.substring(0, start + i - 1) + b + a + text.substring(start + i + 1));
      }
    }
    return Optional.empty();
  }
}
