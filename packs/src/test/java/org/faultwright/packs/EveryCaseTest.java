package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Expectation;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.Pack;
import org.faultwright.packs.Met.PackUnderTest;
import org.faultwright.rules.RuleBase;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs every case of every pack. */
class EveryCaseTest {

  static Stream<Arguments> cases() {
    List<Arguments> all = new ArrayList<>();
    for (PackFolder folder : PackFolder.all()) {
      Pack pack = folder.pack();
      PackUnderTest ready =
          new PackUnderTest(
              (CompiledPack) CompiledPack.compile(pack), RuleBase.shared().forPack(pack));
      for (Map.Entry<Path, CaseFile> c : folder.cases(pack).entrySet()) {
        all.add(Arguments.of(c.getKey().getFileName().toString(), c.getValue(), ready));
      }
    }
    return all.stream();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void case_isNamedAsItsFile(String file, CaseFile caseFile, PackUnderTest pack) {
    assertThat(caseFile.name() + ".yaml").isEqualTo(file);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void expectation_isMet(String file, CaseFile caseFile, PackUnderTest pack) {
    Met met = Met.of(caseFile.expectation().orElseThrow(), caseFile, pack);
    assertThat(met.unmet()).as(met.ranking()).isEmpty();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void facts_areToldWithTheBenchThatTheyNeed(String file, CaseFile caseFile, PackUnderTest pack) {
    assertThat(Met.of(caseFile.expectation().orElseThrow(), caseFile, pack).discounted()).isEmpty();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void expectation_failsWithoutItsDecisiveFact(String file, CaseFile caseFile, PackUnderTest pack) {
    Expectation expected = caseFile.expectation().orElseThrow();
    assertThat(expected.decisive()).as("a decisive fact").isPresent();
    // It may be the advice alone that the fact decides.
    assumeThat(expected.advice()).isEmpty();
    FactId decisive =
        caseFile.facts().stream()
            .filter(t -> t.label().equals(expected.decisive()))
            .map(Told::id)
            .findFirst()
            .orElseThrow();
    Met without = Met.of(expected, caseFile.without(decisive), pack);
    assertThat(without.unmet())
        .as("without '%s': %s", expected.decisive().get(), without.ranking())
        .isNotEmpty();
  }
}
