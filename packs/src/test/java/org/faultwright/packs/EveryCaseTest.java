package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Expectation;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs every case of every pack. */
class EveryCaseTest {

  static Stream<Arguments> cases() {
    List<Arguments> all = new ArrayList<>();
    for (PackFolder folder : PackFolder.all()) {
      Pack pack = folder.pack();
      CompiledPack compiled = (CompiledPack) CompiledPack.compile(pack);
      for (Map.Entry<Path, CaseFile> c : folder.cases(pack).entrySet()) {
        all.add(Arguments.of(c.getKey().getFileName().toString(), c.getValue(), compiled));
      }
    }
    return all.stream();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void case_isNamedAsItsFileAndNamesItsDecisiveFact(
      String file, CaseFile caseFile, CompiledPack compiled) {
    assertThat(caseFile.name() + ".yaml").isEqualTo(file);
    assertThat(caseFile.expectation().flatMap(Expectation::decisive)).isPresent();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cases")
  void ranking_isAsExpected_andNotWithoutTheDecisiveFact(
      String file, CaseFile caseFile, CompiledPack compiled) {
    Expectation expected = caseFile.expectation().orElseThrow();
    assertThat(unmet(expected, compiled.belief(caseFile.facts())))
        .as("with all facts: " + words(compiled.belief(caseFile.facts())))
        .isEmpty();
    if (speaksOfTheRankingOnly(expected)) {
      FactId decisive =
          caseFile.facts().stream()
              .filter(t -> t.label().equals(expected.decisive()))
              .map(Told::id)
              .findFirst()
              .orElseThrow();
      BeliefResult without = compiled.belief(caseFile.without(decisive).facts());
      assertThat(unmet(expected, without))
          .as("without '%s': %s", expected.decisive().get(), words(without))
          .isNotEmpty();
    }
  }

  private static boolean speaksOfTheRankingOnly(Expectation e) {
    return e.advice().isEmpty() && e.blocked().isEmpty() && e.holds().isEmpty();
  }

  private static List<String> unmet(Expectation expected, BeliefResult result) {
    boolean impossible = result instanceof BeliefResult.ImpossibleEvidence;
    if (expected.impossible() != impossible) {
      return List.of("impossible: " + impossible);
    }
    List<String> unmet = new ArrayList<>();
    if (result instanceof Belief belief) {
      Map<CauseId, Double> p = belief.causes();
      CauseId leader =
          p.entrySet().stream().max(Map.Entry.comparingByValue()).orElseThrow().getKey();
      expected
          .leads()
          .filter(l -> !l.equals(leader))
          .ifPresent(l -> unmet.add(leader + " leads, not " + l));
      expected
          .atLeast()
          .forEach(
              (c, least) -> addIf(p.get(c) < least, c + " " + p.get(c) + " < " + least, unmet));
      expected
          .atMost()
          .forEach((c, most) -> addIf(p.get(c) > most, c + " " + p.get(c) + " > " + most, unmet));
    } else if (!impossible) {
      unmet.add(result.toString());
    }
    return unmet;
  }

  private static void addIf(boolean condition, String words, List<String> to) {
    if (condition) {
      to.add(words);
    }
  }

  private static String words(BeliefResult result) {
    if (!(result instanceof Belief belief)) {
      return result.toString();
    }
    StringBuilder words = new StringBuilder();
    belief.causes().entrySet().stream()
        .sorted(Map.Entry.<CauseId, Double>comparingByValue().reversed())
        .limit(5)
        .forEach(e -> words.append("%s %.1f %%, ".formatted(e.getKey(), 100 * e.getValue())));
    return words.toString();
  }
}
