package org.faultwright.benchmarks;

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
import org.faultwright.casefile.Told;
import org.faultwright.compile.CompiledPack;
import org.faultwright.inference.DiscreteNetwork;

/**
 * A network with evidence, put to every contender alike.
 *
 * @param likelihoods P(evidence | state) up to a factor, by number of the node
 */
record Asked(DiscreteNetwork network, Map<Integer, double[]> likelihoods) {

  /**
   * A network by name: {@code asia}; {@code alarm} or {@code hepar2}, where the files with
   * published networks lie beside the project; or a pack of the Wren handset with the facts of a
   * case.
   */
  static Optional<Asked> of(String name) throws IOException {
    return switch (name) {
      case "asia" -> Optional.of(clinic());
      case "charging", "power" -> Optional.of(pack(name));
      default -> published(name);
    };
  }

  // S. L. Lauritzen, D. J. Spiegelhalter, JRSS B 50(2), 1988, 157-224
  private static Asked clinic() {
    DiscreteNetwork network =
        new DiscreteNetwork(
            List.of(
                node("asia", new int[] {}, .01),
                node("smoke", new int[] {}, .5),
                node("tub", new int[] {0}, .01, .05),
                node("lung", new int[] {1}, .01, .1),
                node("bronc", new int[] {1}, .3, .6),
                node("either", new int[] {2, 3}, 0, 1, 1, 1),
                node("xray", new int[] {5}, .05, .98),
                node("dysp", new int[] {4, 5}, .1, .7, .8, .9)));
    double[] yes = {0, 1};
    double[] no = {1, 0};
    return new Asked(network, Map.of(0, yes, 1, yes, 4, no, 6, yes, 7, yes));
  }

  /** Yes or no; P(yes) for each combination of the parents, the last parent running fastest. */
  static DiscreteNetwork.Node node(String name, int[] parents, double... pYes) {
    double[] rows = new double[2 * pYes.length];
    for (int i = 0; i < pYes.length; i++) {
      rows[2 * i] = 1 - pYes[i];
      rows[2 * i + 1] = pYes[i];
    }
    return new DiscreteNetwork.Node(name, 2, parents, rows);
  }

  private static Asked pack(String subsystem) {
    CompiledPack compiled = WrenPacks.compiled(WrenPacks.pack(subsystem));
    List<Told> facts = WrenPacks.caseFile(compiled.pack()).facts();
    return new Asked(compiled.tables(facts), compiled.likelihoods(facts));
  }

  private static Optional<Asked> published(String name) throws IOException {
    for (Path dir = Path.of("").toAbsolutePath(); dir != null; dir = dir.getParent()) {
      Path file = dir.resolve("shared/reference/networks/" + name + ".json");
      if (Files.isReadable(file)) {
        return Optional.of(read(new ObjectMapper().readTree(file.toFile())));
      }
    }
    return Optional.empty();
  }

  private static Asked read(JsonNode json) {
    List<String> names = new ArrayList<>();
    json.get("nodes").forEach(n -> names.add(n.get("name").asText()));
    List<DiscreteNetwork.Node> nodes = new ArrayList<>();
    List<List<String>> states = new ArrayList<>();
    for (JsonNode n : json.get("nodes")) {
      List<String> of = new ArrayList<>();
      n.get("states").forEach(s -> of.add(s.asText()));
      states.add(of);
      List<Integer> parents = new ArrayList<>();
      n.get("parents").forEach(p -> parents.add(names.indexOf(p.asText())));
      List<Double> rows = new ArrayList<>();
      n.get("cpt").forEach(row -> row.forEach(p -> rows.add(p.asDouble())));
      nodes.add(
          new DiscreteNetwork.Node(
              n.get("name").asText(),
              of.size(),
              parents.stream().mapToInt(Integer::intValue).toArray(),
              rows.stream().mapToDouble(Double::doubleValue).toArray()));
    }
    Map<Integer, double[]> likelihoods = new LinkedHashMap<>();
    for (Map.Entry<String, JsonNode> e : json.get("cases").get(0).get("evidence").properties()) {
      int v = names.indexOf(e.getKey());
      double[] only = new double[states.get(v).size()];
      only[states.get(v).indexOf(e.getValue().asText())] = 1;
      likelihoods.put(v, only);
    }
    return new Asked(new DiscreteNetwork(nodes), likelihoods);
  }
}
