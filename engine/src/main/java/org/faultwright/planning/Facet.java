package org.faultwright.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.planning.FaultLogic.Inputs;

/** One of the things that a step shows: its outcomes, and how likely each is in a world. */
abstract class Facet {

  /** The row is settled: nothing unknown matters. */
  static final int SETTLED = Integer.MIN_VALUE;

  private final List<Seen> outcomes;
  private final int pass;

  /**
   * A facet.
   *
   * @param pass the outcome to expect of a device in order, by its place
   */
  Facet(List<? extends Seen> outcomes, int pass) {
    this.outcomes = List.copyOf(outcomes);
    this.pass = pass;
  }

  private Facet(Observation shows) {
    this(
        shows.outcomes().stream().map(Seen.Shown::new).toList(),
        shows.outcomes().indexOf(shows.inOrder()));
  }

  final List<Seen> outcomes() {
    return outcomes;
  }

  final int pass() {
    return pass;
  }

  /**
   * Writes P(outcome) for each outcome into {@code row}.
   *
   * @return {@link #SETTLED}; else something to try both ways first, as {@link Look#pivot} says
   */
  abstract int settle(Look look, double[] row);

  /** What an observation shows. */
  static Facet of(FaultLogic logic, Step step, Observation observation) {
    if (observation instanceof Observation.OfNode o) {
      return new OfNode(logic, o);
    } else if (observation instanceof Observation.OfNodes o) {
      return new OfNodes(logic, o);
    } else if (observation instanceof Observation.OfStates o) {
      return new OfStates(logic, step, o);
    }
    return new OfTable(logic, (Observation.OfTable) observation);
  }

  /** Two outcomes that look at one node with these rates. */
  static Facet ofNode(FaultLogic logic, NodeId node, double catches, double criesWolf) {
    Observation.OfNode o =
        new Observation.OfNode(
            node,
            Chance.byDefinition(catches),
            Chance.byDefinition(criesWolf),
            OutcomeId.POSITIVE,
            OutcomeId.NEGATIVE);
    return new OfNode(logic, o);
  }

  /** Two outcomes that look at one node. */
  private static final class OfNode extends Facet {
    private final int node;
    private final double catches;
    private final double criesWolf;

    OfNode(FaultLogic logic, Observation.OfNode o) {
      super(o);
      node = logic.number(o.node());
      catches = o.catches().p();
      criesWolf = o.criesWolf().p();
    }

    @Override
    int settle(Look look, double[] row) {
      byte value = look.value(node);
      if (value == FaultLogic.UNKNOWN && catches != criesWolf) {
        return look.pivot(node);
      }
      row[0] = value == 1 ? catches : criesWolf;
      row[1] = 1 - row[0];
      return SETTLED;
    }
  }

  /** Two outcomes that look at several nodes at once. */
  private static final class OfNodes extends Facet {
    private final int[] nodes;
    private final double[] missed;
    private final double allMissed;

    OfNodes(FaultLogic logic, Observation.OfNodes o) {
      super(o);
      nodes = logic.numbersOf(o.rates().keySet());
      allMissed = 1 - o.criesWolf().p();
      missed = o.rates().values().stream().mapToDouble(s -> (1 - s.p()) / allMissed).toArray();
    }

    @Override
    int settle(Look look, double[] row) {
      double negative = allMissed;
      for (int n = 0; n < nodes.length; n++) {
        byte value = look.value(nodes[n]);
        if (value == FaultLogic.UNKNOWN && missed[n] != 1) {
          return look.pivot(nodes[n]);
        }
        negative *= value == 1 ? missed[n] : 1;
      }
      row[0] = 1 - negative;
      row[1] = negative;
      return SETTLED;
    }
  }

  /** Outcomes that follow the first active state. */
  private static final class OfStates extends Facet {
    private final Inputs[] triggers;

    /** One row for each state, and the last for normal. */
    private final double[][] rows;

    OfStates(FaultLogic logic, Step step, Observation.OfStates o) {
      super(o);
      triggers = o.states().stream().map(s -> logic.triggersOf(step, s)).toArray(Inputs[]::new);
      List<double[]> all = new ArrayList<>();
      o.states().forEach(s -> all.add(row(o, s.id())));
      all.add(row(o, StateId.NORMAL));
      rows = all.toArray(double[][]::new);
    }

    private static double[] row(Observation.OfStates o, StateId state) {
      Map<OutcomeId, Chance> row = o.rows().getOrDefault(state, Map.of());
      return o.outcomes().stream()
          .mapToDouble(y -> row.containsKey(y) ? row.get(y).p() : 0)
          .toArray();
    }

    @Override
    int settle(Look look, double[] row) {
      int state = 0;
      while (state < triggers.length) {
        byte active = look.any(triggers[state]);
        if (active == FaultLogic.UNKNOWN) {
          return look.pivotOfAny(triggers[state]);
        }
        if (active == 1) {
          break;
        }
        state++;
      }
      System.arraycopy(rows[state], 0, row, 0, rows[state].length);
      return SETTLED;
    }
  }

  /** Outcomes by a full table. */
  private static final class OfTable extends Facet {
    private final int[] nodes;
    private final double[][] rows;

    OfTable(FaultLogic logic, Observation.OfTable o) {
      super(o);
      nodes = logic.numbersOf(o.given());
      rows = new double[1 << nodes.length][];
      for (int key = 0; key < rows.length; key++) {
        rows[key] = row(o, key);
      }
    }

    private static double[] row(Observation.OfTable o, int key) {
      List<Boolean> when = new ArrayList<>();
      for (int n = 0; n < o.given().size(); n++) {
        when.add((key >> n & 1) == 1);
      }
      return o.rows().get(when).stream().mapToDouble(Chance::p).toArray();
    }

    @Override
    int settle(Look look, double[] row) {
      int key = 0;
      for (int n = 0; n < nodes.length; n++) {
        byte value = look.value(nodes[n]);
        if (value == FaultLogic.UNKNOWN) {
          return look.pivot(nodes[n]);
        }
        key |= value << n;
      }
      System.arraycopy(
          rows[key], 0, row, 0, row.length < rows[key].length ? row.length : rows[key].length);
      return SETTLED;
    }
  }
}
