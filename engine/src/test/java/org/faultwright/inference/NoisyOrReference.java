package org.faultwright.inference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Noisy any events: many causes, many findings, the negative ones absorbed. */
class NoisyOrReference {

  private static final double[] ABSENT = {1, 0};
  private static final double[] PRESENT = {0, 1};

  // formula: D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases, UAI
  // 1989 (from memory); numbers of our own by enumeration
  @Test
  void threeCausesHaveTheEnumeratedPosteriors_whenTwoFindingsArePositiveAndOneIsNot() {
    Model model = new Model();
    int d1 = cause(model, .01);
    int d2 = cause(model, .02);
    int d3 = cause(model, .05);
    int f1 = model.noisyAny("f1", new int[] {d1, d2}, new double[] {.8, .6}, .01);
    int f2 = model.noisyAny("f2", new int[] {d2, d3}, new double[] {.7, .5}, .02);
    int f3 = model.noisyAny("f3", new int[] {d1, d3}, new double[] {.9, .4}, 0);
    Map<Integer, double[]> evidence = Map.of(f1, PRESENT, f2, PRESENT, f3, ABSENT);
    Marginals.Exact exact = (Marginals.Exact) Inquiry.of(evidence, Set.of(d1, d2, d3)).of(model);
    assertThat(Math.exp(exact.logPEvidence())).isCloseTo(.00869963127264, within(1e-12));
    assertThat(exact.p().get(d1)[1]).isCloseTo(.0045727576, within(1e-10));
    assertThat(exact.p().get(d2)[1]).isCloseTo(.9586491638, within(1e-10));
    assertThat(exact.p().get(d3)[1]).isCloseTo(.0536773303, within(1e-10));
    assertThat(exact.route()).isEqualTo(Marginals.Route.PER_CASE);
    TwoLevelNetwork direct =
        new TwoLevelNetwork(
            new double[] {.01, .02, .05},
            List.of(
                new TwoLevelNetwork.Finding(new int[] {0, 1}, new double[] {.8, .6}, .01),
                new TwoLevelNetwork.Finding(new int[] {1, 2}, new double[] {.7, .5}, .02),
                new TwoLevelNetwork.Finding(new int[] {0, 2}, new double[] {.9, .4}, 0)));
    Marginals.Exact same =
        (Marginals.Exact) direct.posteriors(new int[] {0, 1}, new int[] {2}, 1e6);
    assertThat(Math.exp(same.logPEvidence())).isCloseTo(.00869963127264, within(1e-12));
    assertThat(same.p().get(0)[1]).isCloseTo(.0045727576, within(1e-10));
    assertThat(same.p().get(1)[1]).isCloseTo(.9586491638, within(1e-10));
    assertThat(same.p().get(2)[1]).isCloseTo(.0536773303, within(1e-10));
    assertThat(direct.posteriors(new int[] {0, 1}, new int[] {2}, 10))
        .isEqualTo(new Marginals.OverBudget(Double.POSITIVE_INFINITY, 20, 10));
  }

  @Test
  void findingIsImpossible_whenNoCauseCanBringItAbout() {
    TwoLevelNetwork network =
        new TwoLevelNetwork(
            new double[] {0, .5},
            List.of(new TwoLevelNetwork.Finding(new int[] {0}, new double[] {1}, 0)));
    assertThat(network.posteriors(new int[] {0}, new int[0], 1e6))
        .isEqualTo(new Marginals.Impossible());
  }

  // the textbook "fever": inhibitors cold .6, flu .2, malaria .1 (from memory, recomputed)
  @Test
  void tableOfANoisyAnyIsThatOfTheTextbook_whicheverInputsAreTrue() {
    double[] expected = {0, .9, .8, .98, .4, .94, .88, .988};
    for (int row = 0; row < expected.length; row++) {
      Model model = new Model();
      int[] inputs = {cause(model, .5), cause(model, .5), cause(model, .5)};
      int fever = model.noisyAny("fever", inputs, new double[] {.4, .8, .9}, 0);
      Map<Integer, double[]> evidence = new LinkedHashMap<>();
      for (int i = 0; i < 3; i++) {
        evidence.put(inputs[i], (row >> (2 - i) & 1) == 1 ? PRESENT : ABSENT);
      }
      Marginals.Exact exact = (Marginals.Exact) Inquiry.of(evidence, Set.of(fever)).of(model);
      assertThat(exact.p().get(fever)[1]).isCloseTo(expected[row], within(1e-15));
    }
  }

  // shared/reference/noisy-or/SOURCE.md: generated; posteriors by inclusion-exclusion in decimals
  // of
  // 80 digits
  @ParameterizedTest
  @CsvSource({
    "two-level-20x40.json, 5",
    "two-level-100x200.json, 5",
    "two-level-100x200_10pos.json, 10"
  })
  void everyPosteriorIsThatOfExactDecimals_whenSomeFindingsArePositive(String file, int positive)
      throws IOException {
    JsonNode json;
    try (InputStream in =
        getClass().getResourceAsStream("/org/faultwright/shared/reference/noisy-or/" + file)) {
      json = new ObjectMapper().readTree(in);
    }
    assertThat(json.get("nets")).hasSize(2);
    for (JsonNode net : json.get("nets")) {
      assertThat(net.get("evidence").get("positive")).hasSize(positive);
      TwoLevel two = TwoLevel.of(net);
      Marginals.Exact causes =
          (Marginals.Exact)
              Inquiry.of(two.evidence(), new LinkedHashSet<>(two.causes().values()))
                  .of(two.model());
      assertThat(causes.logPEvidence())
          .isCloseTo(Math.log(net.get("p_evidence").asDouble()), within(1e-9));
      assertThat(causes.route()).isEqualTo(Marginals.Route.PER_CASE);
      net.get("cause_posteriors")
          .properties()
          .forEach(
              e ->
                  assertThat(causes.p().get(two.causes().get(e.getKey()))[1])
                      .as(e.getKey())
                      .isCloseTo(e.getValue().asDouble(), within(1e-9)));
      Marginals.Exact direct = two.direct();
      assertThat(direct.logPEvidence()).isCloseTo(causes.logPEvidence(), within(1e-9));
      net.get("cause_posteriors")
          .properties()
          .forEach(
              e ->
                  assertThat(direct.p().get(two.causes().get(e.getKey()))[1])
                      .as(e.getKey())
                      .isCloseTo(e.getValue().asDouble(), within(1e-9)));
      int checked = 0;
      for (Map.Entry<String, JsonNode> e : net.get("unobserved_finding_posteriors").properties()) {
        // each asks for a circuit of its own; every ninth is enough
        if (checked++ % 9 == 0) {
          int finding = two.findings().get(e.getKey());
          Marginals.Exact one =
              (Marginals.Exact) Inquiry.of(two.evidence(), Set.of(finding)).of(two.model());
          assertThat(one.p().get(finding)[1])
              .as(e.getKey())
              .isCloseTo(e.getValue().asDouble(), within(1e-9));
        }
      }
      assertThat(checked).isGreaterThan(10);
    }
  }

  private static int cause(Model model, double p) {
    int v = model.variable("cause", 2);
    model.factor(new int[] {v}, new int[] {model.constant(1 - p), model.constant(p)});
    return v;
  }

  /** A network of the files, as a model. */
  private record TwoLevel(
      Model model,
      Map<String, Integer> causes,
      Map<String, Integer> findings,
      Map<Integer, double[]> evidence,
      JsonNode net) {

    /** The posteriors of all causes without a model. */
    Marginals.Exact direct() {
      List<String> names = List.copyOf(findings.keySet());
      List<TwoLevelNetwork.Finding> list = new ArrayList<>();
      for (JsonNode f : net.get("findings")) {
        int[] parents = new int[f.get("parents").size()];
        double[] pActs = new double[parents.length];
        for (int i = 0; i < parents.length; i++) {
          parents[i] = causes.get(f.get("parents").get(i).asText());
          pActs[i] = f.get("activation").get(i).asDouble();
        }
        list.add(new TwoLevelNetwork.Finding(parents, pActs, f.get("leak").asDouble()));
      }
      double[] priors = new double[causes.size()];
      net.get("causes")
          .forEach(c -> priors[causes.get(c.get("name").asText())] = c.get("prior").asDouble());
      return (Marginals.Exact)
          new TwoLevelNetwork(priors, list)
              .posteriors(numbers(names, "positive"), numbers(names, "negative"), 1e6);
    }

    private int[] numbers(List<String> names, String kind) {
      List<Integer> numbers = new ArrayList<>();
      net.get("evidence").get(kind).forEach(f -> numbers.add(names.indexOf(f.asText())));
      return numbers.stream().mapToInt(Integer::intValue).toArray();
    }

    static TwoLevel of(JsonNode net) {
      Model model = new Model();
      Map<String, Integer> causes = new LinkedHashMap<>();
      net.get("causes")
          .forEach(
              c -> causes.put(c.get("name").asText(), cause(model, c.get("prior").asDouble())));
      Map<String, Integer> findings = new LinkedHashMap<>();
      for (JsonNode f : net.get("findings")) {
        int[] parents = new int[f.get("parents").size()];
        double[] pActs = new double[parents.length];
        for (int i = 0; i < parents.length; i++) {
          parents[i] = causes.get(f.get("parents").get(i).asText());
          pActs[i] = f.get("activation").get(i).asDouble();
        }
        String name = f.get("name").asText();
        findings.put(name, model.noisyAny(name, parents, pActs, f.get("leak").asDouble()));
      }
      Map<Integer, double[]> evidence = new TreeMap<>();
      net.get("evidence")
          .get("positive")
          .forEach(f -> evidence.put(findings.get(f.asText()), PRESENT));
      net.get("evidence")
          .get("negative")
          .forEach(f -> evidence.put(findings.get(f.asText()), ABSENT));
      return new TwoLevel(model, causes, findings, evidence, net);
    }
  }
}
