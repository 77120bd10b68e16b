package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Expectation;
import org.faultwright.casefile.Fact;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.merge.MergedPacks;
import org.faultwright.pack.merge.PackMerge;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class EveryPackTest {

  static List<PackFolder> folders() {
    return PackFolder.all();
  }

  @Test
  void folders_areFound() {
    assertThat(folders()).isNotEmpty();
  }

  @ParameterizedTest
  @MethodSource("folders")
  void pack_readsWithoutProblems(PackFolder folder) {
    assertThat(folder.reading().report()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("folders")
  void readme_saysWhenThePackIsWrong(PackFolder folder) throws IOException {
    assertThat(folder.readme())
        .contains("## What the numbers rest on", "## When this pack is wrong");
  }

  /** A technician opens all packs of the device on the bench at once. */
  @Test
  void packs_ofOneFamily_makeOnePack() {
    Map<String, List<Pack>> families =
        folders().stream()
            .map(PackFolder::pack)
            .collect(Collectors.groupingBy(p -> p.id().family()));
    assertThat(families.values()).anyMatch(packs -> packs.size() > 1);
    for (List<Pack> packs : families.values()) {
      MergedPacks merged = PackMerge.of(packs);
      assertThat(merged).as(merged.differences().toString()).isInstanceOf(MergedPacks.Whole.class);
    }
  }

  @ParameterizedTest
  @MethodSource("folders")
  void eachCause_leadsInACaseAndIsHeldBackInANearMiss(PackFolder folder) {
    Pack pack = folder.pack();
    Collection<CaseFile> cases = folder.cases(pack).values();
    Set<CauseId> ownLikelihood =
        pack.causes().values().stream()
            .filter(
                c -> !(c.likelihood() instanceof org.faultwright.pack.Cause.Likelihood.OnlyCaused))
            .map(org.faultwright.pack.Cause::id)
            .collect(Collectors.toSet());
    Set<CauseId> leading =
        expectations(cases).flatMap(e -> e.leads().stream()).collect(Collectors.toSet());
    assertThat(leading).containsAll(ownLikelihood);
    Set<String> nearMisses =
        cases.stream()
            .map(CaseFile::name)
            .filter(n -> n.endsWith("-near-miss"))
            .map(n -> n.replace("-near-miss", ""))
            .collect(Collectors.toSet());
    assertThat(nearMisses)
        .containsAll(ownLikelihood.stream().map(CauseId::value).collect(Collectors.toSet()));
    for (CaseFile c : cases) {
      if (c.name().endsWith("-near-miss")) {
        CauseId missed = new CauseId(c.name().replace("-near-miss", ""));
        assertThat(c.expectation().orElseThrow().leads())
            .as("%s must be led by the look-alike", c.name())
            .isPresent()
            .get()
            .isNotEqualTo(missed);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("folders")
  void packs_haveACaseOfImpossibleFactsAndOneOfNothingButTheComplaint(PackFolder folder) {
    Collection<CaseFile> cases = folder.cases(folder.pack()).values();
    assertThat(expectations(cases)).anyMatch(Expectation::impossible);
    assertThat(cases)
        .anyMatch(c -> c.facts().size() == 1 && c.facts().get(0).fact() instanceof Fact.Complained);
  }

  private static java.util.stream.Stream<Expectation> expectations(Collection<CaseFile> cases) {
    return cases.stream().flatMap(c -> c.expectation().stream());
  }
}
