package org.faultwright.inference;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A network in a file of reference data, with cases and their posteriors.
 *
 * @param cases evidence and expected posteriors, by the names of nodes and states
 */
record PublishedNetwork(
    DiscreteNetwork network, Map<String, List<String>> states, List<PublishedCase> cases) {

  /** Evidence with what follows from it. */
  record PublishedCase(
      Map<String, String> evidence,
      double pEvidence,
      Map<String, Map<String, Double>> posteriors) {}

  /** Reference data that may lie beside the project; empty where they do not. */
  static Optional<PublishedNetwork> besideProject(String file) throws IOException {
    for (Path dir = Path.of("").toAbsolutePath(); dir != null; dir = dir.getParent()) {
      Path found = dir.resolve("shared").resolve("reference").resolve("networks").resolve(file);
      if (Files.isReadable(found)) {
        return Optional.of(of(new ObjectMapper().readTree(found.toFile())));
      }
    }
    return Optional.empty();
  }

  int node(String name) {
    return List.copyOf(states.keySet()).indexOf(name);
  }

  /** Evidence by number of the node. */
  Map<Integer, double[]> likelihoods(PublishedCase c) {
    Map<Integer, double[]> likelihoods = new LinkedHashMap<>();
    c.evidence()
        .forEach(
            (name, state) -> {
              double[] only = new double[states.get(name).size()];
              only[states.get(name).indexOf(state)] = 1;
              likelihoods.put(node(name), only);
            });
    return likelihoods;
  }

  private static PublishedNetwork of(JsonNode json) {
    Map<String, List<String>> states = new LinkedHashMap<>();
    for (JsonNode n : json.get("nodes")) {
      List<String> names = new ArrayList<>();
      n.get("states").forEach(s -> names.add(s.asText()));
      states.put(n.get("name").asText(), names);
    }
    List<String> names = List.copyOf(states.keySet());
    List<DiscreteNetwork.Node> nodes = new ArrayList<>();
    for (JsonNode n : json.get("nodes")) {
      String name = n.get("name").asText();
      List<Integer> parents = new ArrayList<>();
      n.get("parents").forEach(p -> parents.add(names.indexOf(p.asText())));
      List<Double> rows = new ArrayList<>();
      n.get("cpt").forEach(row -> row.forEach(p -> rows.add(p.asDouble())));
      nodes.add(
          new DiscreteNetwork.Node(
              name,
              states.get(name).size(),
              parents.stream().mapToInt(Integer::intValue).toArray(),
              rows.stream().mapToDouble(Double::doubleValue).toArray()));
    }
    List<PublishedCase> cases = new ArrayList<>();
    for (JsonNode c : json.get("cases")) {
      Map<String, String> evidence = new LinkedHashMap<>();
      c.get("evidence").properties().forEach(e -> evidence.put(e.getKey(), e.getValue().asText()));
      Map<String, Map<String, Double>> posteriors = new LinkedHashMap<>();
      for (Map.Entry<String, JsonNode> node : c.get("posteriors").properties()) {
        Map<String, Double> row = new LinkedHashMap<>();
        node.getValue().properties().forEach(s -> row.put(s.getKey(), s.getValue().asDouble()));
        posteriors.put(node.getKey(), row);
      }
      cases.add(new PublishedCase(evidence, c.get("p_evidence").asDouble(), posteriors));
    }
    return new PublishedNetwork(new DiscreteNetwork(nodes), states, cases);
  }
}
