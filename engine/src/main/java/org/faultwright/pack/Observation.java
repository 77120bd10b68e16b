package org.faultwright.pack;

import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/** What a step or a symptom shows: its outcomes, and how likely each is. */
public sealed interface Observation {

  /** The outcomes in the author's order; "could not do" is none of them. */
  List<OutcomeId> outcomes();

  /** The outcome to expect of a device in order; of equally likely ones the author's first. */
  OutcomeId inOrder();

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

    @Override
    public OutcomeId inOrder() {
      return negative;
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

    @Override
    public OutcomeId inOrder() {
      return negative;
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

    @Override
    public OutcomeId inOrder() {
      Map<OutcomeId, Chance> normal = rows.getOrDefault(StateId.NORMAL, Map.of());
      return likeliest(outcomes, o -> normal.containsKey(o) ? normal.get(o).p() : 0);
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

    @Override
    public OutcomeId inOrder() {
      List<Chance> row = rows.get(given.stream().map(g -> false).toList());
      return likeliest(outcomes, o -> row.get(outcomes.indexOf(o)).p());
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

  private static OutcomeId likeliest(List<OutcomeId> outcomes, ToDoubleFunction<OutcomeId> p) {
    OutcomeId best = outcomes.get(0);
    for (OutcomeId outcome : outcomes) {
      best = p.applyAsDouble(outcome) > p.applyAsDouble(best) ? outcome : best;
    }
    return best;
  }
}
