package org.faultwright.inference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Published networks, by both routes. */
class NetworkReference {

  private static final String[] CLINIC = {
    "asia", "smoke", "tub", "lung", "bronc", "either", "xray", "dysp"
  };

  // S. L. Lauritzen, D. J. Spiegelhalter, Local computations with probabilities on graphical
  // structures and their application to expert systems, JRSS B 50(2), 1988, 157-224, the chest
  // clinic (page numbers from memory)
  private static DiscreteNetwork clinic() {
    return new DiscreteNetwork(
        List.of(
            node("asia", new int[] {}, .01),
            node("smoke", new int[] {}, .5),
            node("tub", new int[] {0}, .01, .05),
            node("lung", new int[] {1}, .01, .1),
            node("bronc", new int[] {1}, .3, .6),
            node("either", new int[] {2, 3}, 0, 1, 1, 1),
            node("xray", new int[] {5}, .05, .98),
            node("dysp", new int[] {4, 5}, .1, .7, .8, .9)));
  }

  /** Yes or no; P(yes) for each combination of the parents, the last parent running fastest. */
  private static DiscreteNetwork.Node node(String name, int[] parents, double... pYes) {
    double[] rows = new double[2 * pYes.length];
    for (int i = 0; i < pYes.length; i++) {
      rows[2 * i] = 1 - pYes[i];
      rows[2 * i + 1] = pYes[i];
    }
    return new DiscreteNetwork.Node(name, 2, parents, rows);
  }

  // priors: closed form from the tables of the paper
  @Test
  void clinicHasItsPriors_whenNothingIsKnown() {
    expect(Map.of(), "tub", .0104, "lung", .055, "bronc", .45, "either", .064828);
    expect(Map.of(), "xray", .11029004, "dysp", .4359706);
  }

  // posteriors: published run of an open R library for asia and dysp, and smoke; the rest
  // recomputed
  // by enumeration
  @Test
  void clinicHasThePublishedPosteriors_whateverIsKnown() {
    expect(
        Map.of("asia", true, "dysp", true),
        "tub",
        .08775096,
        "lung",
        .09952515,
        "bronc",
        .81140207,
        "either",
        .18229985,
        "xray",
        .21953886);
    expect(
        Map.of("asia", true, "dysp", true, "smoke", true),
        "tub",
        .07275954,
        "lung",
        .14551908,
        "bronc",
        .86725821);
    expect(
        Map.of("asia", true, "dysp", true, "xray", false),
        "tub",
        .0022487,
        "lung",
        .00255042,
        "bronc",
        .86276077);
    expect(
        Map.of("asia", true, "dysp", true, "xray", true),
        "tub",
        .39171172,
        "lung",
        .44427051,
        "bronc",
        .62882178);
    expect(Map.of("dysp", true), "tub", .01884531, "lung", .10275922, "bronc", .83396734);
    expect(Map.of("xray", true), "tub", .09241088, "lung", .4887114, "bronc", .50632616);
  }

  // published run of an open R library, and closed form
  @Test
  void clinicHasThePublishedProbabilityOfTheEvidence_byBothRoutes() {
    for (Marginals.Exact exact :
        bothRoutes(clinic(), evidence(Map.of("asia", true, "dysp", true)), Set.of(3))) {
      assertThat(Math.exp(exact.logPEvidence())).isCloseTo(.004501375, within(5e-10));
    }
    for (Marginals.Exact exact : bothRoutes(clinic(), evidence(Map.of("dysp", true)), Set.of(3))) {
      assertThat(Math.exp(exact.logPEvidence())).isCloseTo(.4359706, within(1e-12));
    }
  }

  @Test
  void clinicFindsTheEvidenceImpossible_whenADiseaseIsThereAndEitherIsNot() {
    Map<Integer, double[]> evidence = evidence(Map.of("tub", true, "either", false));
    assertThat(Inquiry.of(evidence, Set.of(3)).of(clinic())).isEqualTo(new Marginals.Impossible());
  }

  private static Map<Integer, double[]> evidence(Map<String, Boolean> known) {
    Map<Integer, double[]> evidence = new LinkedHashMap<>();
    known.forEach(
        (name, yes) ->
            evidence.put(
                List.of(CLINIC).indexOf(name), yes ? new double[] {0, 1} : new double[] {1, 0}));
    return evidence;
  }

  /** Expected values are printed with 8 decimals or fewer. */
  private static void expect(Map<String, Boolean> known, Object... expected) {
    Set<Integer> all = IntStream.range(0, CLINIC.length).boxed().collect(Collectors.toSet());
    for (Marginals.Exact exact : bothRoutes(clinic(), evidence(known), all)) {
      for (int i = 0; i < expected.length; i += 2) {
        assertThat(exact.p().get(List.of(CLINIC).indexOf((String) expected[i]))[1])
            .as("%s given %s, %s", expected[i], known, exact.route())
            .isCloseTo((Double) expected[i + 1], within(1e-8));
      }
    }
  }

  private static List<Marginals.Exact> bothRoutes(
      DiscreteNetwork network, Map<Integer, double[]> evidence, Set<Integer> asked) {
    Inquiry inquiry = Inquiry.of(evidence, asked);
    Model model = Model.of(network);
    Model left = Reduction.of(model, evidence, asked).orElseThrow();
    return List.of(
        (Marginals.Exact) inquiry.whole(model, EliminationOrder.best(model)),
        (Marginals.Exact) inquiry.perCase(left, EliminationOrder.best(left)));
  }

  // asia: as above; alarm: I. Beinlich and others, 1989; hepar2: A. Onisko, 2003. Posteriors by
  // variable elimination, checked against three independent general-purpose libraries. The files do
  // not come with the project, since the licence of the networks is not settled
  @ParameterizedTest
  @ValueSource(strings = {"asia.json", "alarm.json", "hepar2.json"})
  void everyPosteriorIsThePublishedOne_whateverTheCase(String file) throws IOException {
    Optional<PublishedNetwork> found = PublishedNetwork.besideProject(file);
    Assumptions.assumeTrue(found.isPresent(), file + " does not lie beside the project");
    PublishedNetwork published = found.get();
    List<String> names = List.copyOf(published.states().keySet());
    Set<Integer> all = IntStream.range(0, names.size()).boxed().collect(Collectors.toSet());
    assertThat(published.cases()).hasSizeGreaterThanOrEqualTo(10);
    for (PublishedNetwork.PublishedCase c : published.cases()) {
      for (Marginals.Exact exact : bothRoutes(published.network(), published.likelihoods(c), all)) {
        assertThat(exact.logPEvidence()).isCloseTo(Math.log(c.pEvidence()), within(1e-9));
        for (int v = 0; v < names.size(); v++) {
          Map<String, Double> expected = c.posteriors().get(names.get(v));
          List<String> states = published.states().get(names.get(v));
          for (int s = 0; s < states.size(); s++) {
            assertThat(exact.p().get(v)[s])
                .as("%s %s %s", names.get(v), states.get(s), exact.route())
                .isCloseTo(expected.get(states.get(s)), within(1e-9));
          }
        }
      }
    }
  }
}
