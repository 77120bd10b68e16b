package org.faultwright.benchmarks;

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
import org.faultwright.inference.CircuitCompiler;
import org.faultwright.inference.DiscreteNetwork;
import org.faultwright.inference.Inquiry;
import org.faultwright.inference.Marginals;
import org.faultwright.inference.Model;
import org.faultwright.inference.TwoLevelNetwork;

/**
 * A hundred causes and two hundred findings of the reference data, five of them positive and
 * fifteen negative: how likely is each cause?
 */
final class TwoLevel {

  private final Model model = new Model();
  private final JsonNode net;
  private final Map<String, Integer> causes = new LinkedHashMap<>();
  private final Map<Integer, double[]> evidence = new TreeMap<>();
  private final Set<Integer> asked;
  private final TwoLevelNetwork network;
  private final int[] positive;
  private final int[] negative;

  TwoLevel() throws IOException {
    try (InputStream in =
        getClass()
            .getResourceAsStream(
                "/org/faultwright/shared/reference/noisy-or/two-level-100x200.json")) {
      net = new ObjectMapper().readTree(in).get("nets").get(0);
    }
    for (JsonNode c : net.get("causes")) {
      double p = c.get("prior").asDouble();
      int v = model.variable(c.get("name").asText(), 2);
      model.factor(new int[] {v}, new int[] {model.constant(1 - p), model.constant(p)});
      causes.put(c.get("name").asText(), v);
    }
    Map<String, Integer> findings = new LinkedHashMap<>();
    for (JsonNode f : net.get("findings")) {
      String name = f.get("name").asText();
      int event =
          model.noisyAny(
              name,
              parents(f).stream().mapToInt(causes::get).toArray(),
              activations(f),
              f.get("leak").asDouble());
      findings.put(name, event);
    }
    net.get("evidence")
        .get("positive")
        .forEach(f -> evidence.put(findings.get(f.asText()), new double[] {0, 1}));
    net.get("evidence")
        .get("negative")
        .forEach(f -> evidence.put(findings.get(f.asText()), new double[] {1, 0}));
    asked = new LinkedHashSet<>(causes.values());
    List<String> names = List.copyOf(findings.keySet());
    positive = numbers(names, "positive");
    negative = numbers(names, "negative");
    double[] priors = new double[causes.size()];
    List<TwoLevelNetwork.Finding> list = new ArrayList<>();
    net.get("causes")
        .forEach(c -> priors[causes.get(c.get("name").asText())] = c.get("prior").asDouble());
    for (JsonNode f : net.get("findings")) {
      list.add(
          new TwoLevelNetwork.Finding(
              parents(f).stream().mapToInt(causes::get).toArray(),
              activations(f),
              f.get("leak").asDouble()));
    }
    network = new TwoLevelNetwork(priors, list);
  }

  private int[] numbers(List<String> names, String kind) {
    List<Integer> numbers = new ArrayList<>();
    net.get("evidence").get(kind).forEach(f -> numbers.add(names.indexOf(f.asText())));
    return numbers.stream().mapToInt(Integer::intValue).toArray();
  }

  private static List<String> parents(JsonNode finding) {
    List<String> names = new ArrayList<>();
    finding.get("parents").forEach(p -> names.add(p.asText()));
    return names;
  }

  private static double[] activations(JsonNode finding) {
    double[] a = new double[finding.get("activation").size()];
    for (int i = 0; i < a.length; i++) {
      a[i] = finding.get("activation").get(i).asDouble();
    }
    return a;
  }

  /** P(cause present), without building anything. */
  double[] direct() {
    Marginals.Exact exact =
        (Marginals.Exact) network.posteriors(positive, negative, CircuitCompiler.DEFAULT_BUDGET);
    double[] p = new double[causes.size()];
    for (int i = 0; i < p.length; i++) {
      p[i] = exact.p().get(i)[1];
    }
    return p;
  }

  /** P(cause present), by the route that reduces the model to the case at hand. */
  double[] ours() {
    Marginals.Exact exact = (Marginals.Exact) Inquiry.of(evidence, asked).perCaseOf(model);
    double[] p = new double[causes.size()];
    int i = 0;
    for (int v : asked) {
      p[i++] = exact.p().get(v)[1];
    }
    return p;
  }

  /**
   * P(cause present), by the peer: its junction tree built on the network that is left when
   * negative findings have been absorbed into the priors and findings that nobody looked at are
   * gone.
   */
  double[] peers() throws Exception {
    Set<String> positive = new LinkedHashSet<>();
    net.get("evidence").get("positive").forEach(f -> positive.add(f.asText()));
    Set<String> negative = new LinkedHashSet<>();
    net.get("evidence").get("negative").forEach(f -> negative.add(f.asText()));
    Map<String, Double> absent = new LinkedHashMap<>();
    for (JsonNode f : net.get("findings")) {
      if (negative.contains(f.get("name").asText())) {
        double[] a = activations(f);
        for (int i = 0; i < a.length; i++) {
          absent.merge(parents(f).get(i), 1 - a[i], (x, y) -> x * y);
        }
      }
    }
    List<DiscreteNetwork.Node> nodes = new ArrayList<>();
    for (JsonNode c : net.get("causes")) {
      String name = c.get("name").asText();
      double with = c.get("prior").asDouble() * absent.getOrDefault(name, 1.0);
      nodes.add(Asked.node(name, new int[0], with / (with + 1 - c.get("prior").asDouble())));
    }
    Map<Integer, double[]> found = new TreeMap<>();
    for (JsonNode f : net.get("findings")) {
      if (positive.contains(f.get("name").asText())) {
        double leak = f.get("leak").asDouble();
        nodes.add(Asked.node("otherwise", new int[0], leak));
        double[] a = activations(f);
        for (int i = 0; i < a.length; i++) {
          int[] parents = {nodes.size() - 1, causes.get(parents(f).get(i))};
          nodes.add(Asked.node("up to " + i, parents, 0, a[i], 1, 1));
        }
        found.put(nodes.size() - 1, new double[] {0, 1});
      }
    }
    Peer peer = new Peer(new DiscreteNetwork(nodes), found);
    peer.reset();
    double[][] all = peer.answer();
    double[] p = new double[causes.size()];
    for (int i = 0; i < p.length; i++) {
      p[i] = all[i][1];
    }
    return p;
  }
}
