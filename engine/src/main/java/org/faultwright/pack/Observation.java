package org.faultwright.pack;

import java.util.List;
import java.util.Map;

/** What a step or a symptom shows: its outcomes, and how likely each is. */
public sealed interface Observation {

  /** The outcomes in the author's order; "could not do" is none of them. */
  List<OutcomeId> outcomes();

  /**
   * Two outcomes that look at one event or cause.
   *
   * @param node what it looks at
   * @param catches P(positive | node)
   * @param criesWolf P(positive | not node)
   */
  record OfNode(
      NodeId node, Chance catches, Chance criesWolf, OutcomeId positive, OutcomeId negative)
      implements Observation {
    @Override
    public List<OutcomeId> outcomes() {
      return List.of(positive, negative);
    }
  }

  /**
   * Two outcomes that look at several causes (or events) at once.
   *
   * <p>{@code P(negative) = (1-f) * product over the nodes c that act of (1-s_c)/(1-f)}.
   *
   * @param rates P(positive) with this node alone, s_c, not below f
   * @param criesWolf f = P(positive | none of them), below 1
   */
  record OfNodes(
      Map<NodeId, Chance> rates, Chance criesWolf, OutcomeId positive, OutcomeId negative)
      implements Observation {

    /** Copies the rates, keeping their order. */
    public OfNodes {
      rates = Ordered.copy(rates);
    }

    @Override
    public List<OutcomeId> outcomes() {
      return List.of(positive, negative);
    }
  }

  /**
   * Several outcomes that look at a state of the device.
   *
   * @param states the states other than {@link StateId#NORMAL} in order of dominance: the first
   *     active one is the true state, and {@code normal} is where none is
   * @param outcomes the outcomes
   * @param rows for each state, {@code normal} included, P(outcome | state); each row sums to 1
   */
  record OfStates(
      List<TrueState> states, List<OutcomeId> outcomes, Map<StateId, Map<OutcomeId, Chance>> rows)
      implements Observation {

    /** Copies the lists and rows, keeping their order. */
    public OfStates {
      states = List.copyOf(states);
      outcomes = List.copyOf(outcomes);
      rows = Ordered.copy(rows);
    }
  }

  /**
   * Outcomes by a full table.
   *
   * @param given the nodes that the table looks at
   * @param outcomes the outcomes
   * @param rows one row for each combination of the given nodes; in key order of {@code given}:
   *     {@code true} where the node acts. Each row gives P(outcome) for each outcome and sums to 1
   */
  record OfTable(
      List<NodeId> given, List<OutcomeId> outcomes, Map<List<Boolean>, List<Chance>> rows)
      implements Observation {

    /** Copies the lists and rows, keeping their order. */
    public OfTable {
      given = List.copyOf(given);
      outcomes = List.copyOf(outcomes);
      rows = Ordered.copy(rows);
    }
  }

  /**
   * A state of the device other than normal.
   *
   * @param triggers a noisy any: the state is active when at least one of these nodes acts and its
   *     strength bit (drawn once per case) is set
   */
  record TrueState(StateId id, Map<NodeId, Chance> triggers) {

    /** Copies the triggers, keeping their order. */
    public TrueState {
      triggers = Ordered.copy(triggers);
    }
  }
}
