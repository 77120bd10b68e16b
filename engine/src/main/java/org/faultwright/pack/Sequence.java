package org.faultwright.pack;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Something that goes through stages one after the other, such as a start-up watched by its current
 * or by its lights: how far it gets is the outcome.
 *
 * <p>A node that acts draws its own end once per case: a stage beyond which it does not go, a stage
 * from which it falls back to the start, a draw before the key is pressed, or none of these, with
 * what is left of its probability. What comes first of all ends is what happens: a draw before the
 * key, then stage by stage; at one stage, falling back goes before standing still.
 *
 * @param stages the stages in order, the last being that which a device in order reaches
 * @param beforeKey nodes with the probability that current is drawn before the key is pressed
 * @param stops nodes with the furthest stage that is seen, each with its probability
 * @param loops nodes with the stage from which it falls back to the start, each with its
 *     probability
 * @param reads P(the outcome that is noted is the true one); the others share the rest evenly
 */
public record Sequence(
    List<OutcomeId> stages,
    Map<NodeId, Chance> beforeKey,
    Map<NodeId, Map<OutcomeId, Chance>> stops,
    Map<NodeId, Map<OutcomeId, Chance>> loops,
    Chance reads) {

  /** The outcome where current is drawn before the key is pressed. */
  public static final OutcomeId BEFORE_KEY = new OutcomeId("before-key");

  /** The outcome where it begins again and again. */
  public static final OutcomeId LOOPS = new OutcomeId("loops");

  /** Begins the name of a state in which a sequence falls back from a stage. */
  static final String LOOPS_AT = "loops-at-";

  /**
   * How often the outcome that is noted is the true one, where the pack says nothing. Common
   * practice, no source.
   */
  public static final double DEFAULT_READS = 0.95;

  /** A way to end, and what is then noted if it is read right. */
  private record End(StateId state, OutcomeId noted, Map<NodeId, Chance> causes) {}

  /** Copies the collections, keeping their order. */
  public Sequence {
    stages = List.copyOf(stages);
    beforeKey = Ordered.copy(beforeKey);
    stops = Ordered.copy(stops);
    loops = Ordered.copy(loops);
  }

  /** Whether a stage may not be called so, because the word has a meaning here. */
  public static boolean isReserved(OutcomeId stage) {
    return stage.equals(BEFORE_KEY)
        || stage.equals(LOOPS)
        || stage.value().equals(StateId.NORMAL.value())
        || stage.value().startsWith(LOOPS_AT);
  }

  /** The outcomes: a draw before the key where there can be one, the stages, loops likewise. */
  public List<OutcomeId> outcomes() {
    List<OutcomeId> outcomes = new ArrayList<>(stages);
    if (!beforeKey.isEmpty()) {
      outcomes.add(0, BEFORE_KEY);
    }
    if (!loops.isEmpty()) {
      outcomes.add(LOOPS);
    }
    return List.copyOf(outcomes);
  }

  /**
   * The same as states in order of dominance. The strength of a node in a state is the probability
   * that it ends there, given that it did not end before: so that independent bits make one draw.
   */
  public Observation.OfStates observation() {
    Map<NodeId, Double> left = new LinkedHashMap<>();
    List<Observation.TrueState> states = new ArrayList<>();
    Map<StateId, Map<OutcomeId, Chance>> rows = new LinkedHashMap<>();
    for (End end : ends()) {
      Map<NodeId, Chance> triggers = new LinkedHashMap<>();
      end.causes().forEach((node, chance) -> triggers.put(node, given(left, node, chance)));
      if (!triggers.isEmpty()) {
        states.add(new Observation.TrueState(end.state(), triggers));
        rows.put(end.state(), row(end.noted()));
      }
    }
    rows.put(StateId.NORMAL, row(stages.get(stages.size() - 1)));
    return new Observation.OfStates(states, outcomes(), rows);
  }

  private List<End> ends() {
    List<End> ends = new ArrayList<>();
    ends.add(new End(new StateId(BEFORE_KEY.value()), BEFORE_KEY, beforeKey));
    for (OutcomeId stage : stages) {
      ends.add(new End(new StateId(LOOPS_AT + stage.value()), LOOPS, at(stage, loops)));
      ends.add(new End(new StateId(stage.value()), stage, at(stage, stops)));
    }
    return ends;
  }

  private static Map<NodeId, Chance> at(OutcomeId stage, Map<NodeId, Map<OutcomeId, Chance>> of) {
    Map<NodeId, Chance> here = new LinkedHashMap<>();
    of.forEach(
        (node, stages) -> {
          if (stages.containsKey(stage)) {
            here.put(node, stages.get(stage));
          }
        });
    return here;
  }

  /** P(ends here | did not end before); takes it from what is left. */
  private static Chance given(Map<NodeId, Double> left, NodeId node, Chance chance) {
    double before = left.getOrDefault(node, 1.0);
    double p = chance.p();
    boolean all = p >= before * (1 - 1e-12); // what is left may be one rounding off
    left.put(node, all ? 0 : before - p);
    return new Chance(all ? (p > 0 ? 1 : 0) : p / before, chance.basis(), chance.why());
  }

  private Map<OutcomeId, Chance> row(OutcomeId noted) {
    List<OutcomeId> outcomes = outcomes();
    Map<OutcomeId, Chance> row = new LinkedHashMap<>();
    for (OutcomeId o : outcomes) {
      double p = o.equals(noted) ? reads.p() : (1 - reads.p()) / (outcomes.size() - 1);
      row.put(o, new Chance(p, reads.basis(), reads.why()));
    }
    return row;
  }
}
