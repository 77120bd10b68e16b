package org.faultwright.faulttree;

import java.util.List;
import java.util.Map;
import org.faultwright.inference.DiscreteNetwork;
import org.faultwright.pack.Ordered;

/**
 * A fault tree as a Bayesian network: one variable with states false and true for each event, and
 * others between them, so that a gate with many inputs needs no large table.
 *
 * @param tables the network
 * @param events the variable of each event, in the order of the tree
 */
public record TreeNetwork(DiscreteNetwork tables, Map<EventName, Integer> events) {

  /** Names of the two states, in order. */
  public static final List<String> STATES = List.of("false", "true");

  /** Copies the map. */
  public TreeNetwork {
    events = Ordered.copy(events);
  }

  /** All events of a tree, house events as they are set. Basic events are independent. */
  public static TreeNetwork of(FaultTree tree) {
    return TreeCircuit.network(tree);
  }
}
