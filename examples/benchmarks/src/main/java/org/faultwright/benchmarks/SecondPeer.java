package org.faultwright.benchmarks;

import edu.cmu.tetrad.bayes.BayesPm;
import edu.cmu.tetrad.bayes.JunctionTreeAlgorithm;
import edu.cmu.tetrad.bayes.MlBayesIm;
import edu.cmu.tetrad.data.DiscreteVariable;
import edu.cmu.tetrad.graph.Dag;
import edu.cmu.tetrad.graph.Node;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.faultwright.inference.DiscreteNetwork;

/**
 * A network in Tetrad's {@link JunctionTreeAlgorithm}. Its tree brings its margins up to date after
 * each piece of evidence; a conditional query takes all evidence back.
 */
final class SecondPeer implements Contender {

  private final JunctionTreeAlgorithm tree;
  private final int[] place;
  private final Map<Integer, Integer> observed = new TreeMap<>();

  /**
   * @param likelihoods P(facts | state) up to a factor, by number of the variable
   */
  SecondPeer(DiscreteNetwork network, Map<Integer, double[]> likelihoods) {
    List<DiscreteNetwork.Node> nodes = new ArrayList<>(network.nodes());
    Map<Integer, Integer> evidence = new TreeMap<>();
    for (Map.Entry<Integer, double[]> e : new TreeMap<>(likelihoods).entrySet()) {
      int only = Evidence.onlyState(e.getValue());
      if (only >= 0) {
        evidence.put(e.getKey(), only);
      } else {
        evidence.put(nodes.size(), 0);
        nodes.add(Evidence.virtualChild(e.getKey(), e.getValue()));
      }
    }
    List<Node> variables = new ArrayList<>();
    Dag dag = new Dag();
    for (int v = 0; v < nodes.size(); v++) {
      Node variable = new DiscreteVariable("v" + v, nodes.get(v).states());
      variables.add(variable);
      dag.addNode(variable);
    }
    for (int v = 0; v < nodes.size(); v++) {
      for (int p : nodes.get(v).parents()) {
        dag.addDirectedEdge(variables.get(p), variables.get(v));
      }
    }
    MlBayesIm tables = new MlBayesIm(new BayesPm(dag));
    for (int v = 0; v < nodes.size(); v++) {
      fill(tables, nodes, v);
    }
    tree = new JunctionTreeAlgorithm(tables);
    List<String> names = tree.getNodes().stream().map(Node::getName).toList();
    place = new int[network.nodes().size()];
    for (int v = 0; v < place.length; v++) {
      place[v] = names.indexOf("v" + v);
    }
    evidence.forEach((v, s) -> observed.put(names.indexOf("v" + v), s));
  }

  /** Copies a table; the parents may stand in another order there. */
  private static void fill(MlBayesIm tables, List<DiscreteNetwork.Node> nodes, int v) {
    DiscreteNetwork.Node node = nodes.get(v);
    int at = tables.getNodeIndex(tables.getNode("v" + v));
    int[] parents = node.parents();
    int[] stateOf = new int[nodes.size()];
    for (int row = 0; row < node.rows().length / node.states(); row++) {
      int rest = row;
      for (int i = parents.length - 1; i >= 0; i--) {
        stateOf[parents[i]] = rest % nodes.get(parents[i]).states();
        rest /= nodes.get(parents[i]).states();
      }
      int[] theirs = new int[parents.length];
      for (int i = 0; i < theirs.length; i++) {
        String name = tables.getNode(tables.getParent(at, i)).getName();
        theirs[i] = stateOf[Integer.parseInt(name.substring(1))];
      }
      for (int s = 0; s < node.states(); s++) {
        tables.setProbability(
            at, tables.getRowIndex(at, theirs), s, node.rows()[row * node.states() + s]);
      }
    }
  }

  @Override
  public void reset() {
    int some = observed.keySet().iterator().next();
    tree.getConditionalProbabilities(
        (some + 1) % tree.getNumberOfNodes(), new int[] {some}, new int[] {observed.get(some)});
  }

  @Override
  public double[][] answer() {
    observed.forEach(tree::setEvidence);
    double[][] all = new double[place.length][];
    for (int v = 0; v < all.length; v++) {
      all[v] = tree.getMarginalProbability(place[v]);
    }
    return all;
  }
}
