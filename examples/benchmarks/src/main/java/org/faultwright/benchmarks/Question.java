package org.faultwright.benchmarks;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.inference.DiscreteNetwork;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import weka.classifiers.bayes.net.MarginCalculator;

/** How likely is each cause of the charging pack, given the facts of the case: put to both. */
final class Question {

  private final CompiledPack compiled;
  private final List<Told> facts;
  private final Peer peer;
  private final Map<CauseId, Integer> nodes = new LinkedHashMap<>();

  Question() throws Exception {
    Pack pack = WrenPacks.pack();
    compiled = WrenPacks.compiled(pack);
    facts = WrenPacks.caseFile(pack).facts();
    DiscreteNetwork network = compiled.tables(facts);
    peer = new Peer(network, compiled.likelihoods(facts));
    List<String> names = network.nodes().stream().map(DiscreteNetwork.Node::name).toList();
    for (CauseId cause : compiled.priors().keySet()) {
      int follower = names.indexOf(cause + " in epoch 0");
      int node = follower < 0 ? names.indexOf("own " + cause) : follower;
      if (node < 0) {
        throw new IllegalStateException("cause must have a variable of its own: " + cause);
      }
      nodes.put(cause, node);
    }
  }

  Map<CauseId, Double> ours() {
    return ((Belief) compiled.belief(facts)).causes();
  }

  MarginCalculator copy() {
    return peer.copy();
  }

  /** The peer's answer, for all causes that a device may come with. */
  Map<CauseId, Double> peers(MarginCalculator untouched) throws Exception {
    MarginCalculator told = peer.enter(untouched);
    Map<CauseId, Double> all = new LinkedHashMap<>();
    nodes.forEach((cause, node) -> all.put(cause, told.getMargin(node)[1]));
    return all;
  }

  /** The greatest difference over the peer's causes; not a number when one of them is not one. */
  static double furthestApart(Map<CauseId, Double> ours, Map<CauseId, Double> peers) {
    double most = 0;
    for (Map.Entry<CauseId, Double> e : peers.entrySet()) {
      most = Math.max(most, Math.abs(ours.get(e.getKey()) - e.getValue()));
    }
    return most;
  }
}
