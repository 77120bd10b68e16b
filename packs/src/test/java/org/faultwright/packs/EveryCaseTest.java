package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseFile;
import org.faultwright.diagnosis.CaseCheck;
import org.faultwright.diagnosis.Engine;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.Pack;
import org.faultwright.rules.Standing;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs every case of every pack. */
class EveryCaseTest {

  private static final CaseCheck CHECK = new CaseCheck(Engine.create());

  static Stream<Arguments> cases() {
    List<Arguments> all = new ArrayList<>();
    for (PackFolder folder : PackFolder.all()) {
      Pack pack = folder.pack();
      for (Map.Entry<Path, CaseFile> c : folder.cases(pack).entrySet()) {
        all.add(Arguments.of(c.getKey().getFileName().toString(), pack, c.getValue()));
      }
    }
    return all.stream();
  }

  /** With all facts as expected, and without the decisive one otherwise. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void case_comesOutAsExpected_andOtherwiseWithoutItsDecisiveFact(
      String file, Pack pack, CaseFile caseFile) {
    assertThat(caseFile.name() + ".yaml").isEqualTo(file);
    assertThat(caseFile.expectation().orElseThrow().decisive()).isPresent();
    CaseCheck.Result result = CHECK.run(pack, caseFile);
    assertThat(result.failures()).as(inWords(result)).isEmpty();
    assertThat(result.answer().findings().standings())
        .as("each fact is told with the bench that it needs")
        .allMatch(Standing::counts);
  }

  private static String inWords(CaseCheck.Result result) {
    StringBuilder words = new StringBuilder("advice: " + result.answer().advice().primary());
    for (WhyCause why : result.why()) {
      words.append("%n%s".formatted(why));
    }
    return words.toString();
  }
}
