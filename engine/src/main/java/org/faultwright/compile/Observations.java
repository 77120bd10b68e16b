package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.faultwright.pack.Chance;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;

/** What the observations of a case depend on: the part of a network above events. */
final class Observations {

  private final Pack pack;
  private final Events events;
  private final Wiring wiring;

  Observations(Pack pack, Events events, Wiring wiring) {
    this.pack = pack;
    this.events = events;
    this.wiring = wiring;
  }

  /**
   * Wires an observation.
   *
   * @param owner makes the owner of a state's strength bits
   */
  Seen seen(
      Observation shows, Function<StateId, Coordinate.Owner> owner, int epoch, Events.View view) {
    if (shows instanceof Observation.OfNode o) {
      Ref node = events.acts(o.node(), epoch, view);
      return Seen.of(node, states(node), o.outcomes(), o.catches().p(), o.criesWolf().p());
    } else if (shows instanceof Observation.OfNodes o) {
      return several(o, epoch, view);
    } else if (shows instanceof Observation.OfStates o) {
      List<Ref> triggers = new ArrayList<>();
      o.states()
          .forEach(
              s -> triggers.add(events.trigger(owner.apply(s.id()), s.triggers(), epoch, view)));
      double[][] rows = new double[o.states().size() + 1][];
      rows[0] = row(o.rows().get(StateId.NORMAL), o.outcomes());
      for (int s = 1; s < rows.length; s++) {
        rows[s] = row(o.rows().get(o.states().get(s - 1).id()), o.outcomes());
      }
      int state = dominance("state of " + view.who(), triggers);
      return state < 0
          ? new Seen(-1, o.outcomes(), new double[][] {rows[-1 - state]})
          : new Seen(state, o.outcomes(), rows);
    }
    return table((Observation.OfTable) shows, epoch, view);
  }

  int states(Ref ref) {
    return ref instanceof Ref.At at ? wiring.model.states(at.variable()) : 1;
  }

  private Seen several(Observation.OfNodes o, int epoch, Events.View view) {
    double f = o.criesWolf().p();
    Ref positive = wiring.coin("cries wolf", f);
    for (Map.Entry<NodeId, Chance> e : o.rates().entrySet()) {
      double v = 1 - (1 - e.getValue().p()) / (1 - f);
      Ref acc = positive;
      Ref x = events.acts(e.getKey(), epoch, view);
      if (acc.equals(Ref.YES) || x.equals(Ref.NO)) {
        continue;
      }
      positive =
          wiring.noisy("seen by " + view.who(), List.of(acc, x), t -> t[0] ? 1.0 : t[1] ? v : 0.0);
    }
    return Seen.of(positive, states(positive), o.outcomes(), 1, 0);
  }

  private Seen table(Observation.OfTable o, int epoch, Events.View view) {
    List<Ref> given = new ArrayList<>();
    o.given().forEach(x -> given.add(events.acts(x, epoch, view)));
    int n = o.outcomes().size();
    double[][] identity = new double[Math.max(n, 2)][n];
    for (int i = 0; i < n; i++) {
      identity[i][i] = 1;
    }
    int variable =
        wiring.variable(
            "outcome of " + view.who(),
            identity.length,
            given,
            t -> {
              List<Boolean> key = new ArrayList<>();
              for (boolean b : t) {
                key.add(b);
              }
              double[] row = new double[identity.length];
              List<Chance> stated = o.rows().get(key);
              for (int i = 0; i < n; i++) {
                row[i] = stated.get(i).p();
              }
              return row;
            });
    return new Seen(variable, o.outcomes(), identity);
  }

  private static double[] row(Map<OutcomeId, Chance> stated, List<OutcomeId> outcomes) {
    double[] row = new double[outcomes.size()];
    for (int i = 0; i < row.length; i++) {
      Chance c = stated.get(outcomes.get(i));
      row[i] = c == null ? 0 : c.p();
    }
    return row;
  }

  /**
   * The true states of the points of a step: for each a variable over normal and the states off
   * normal.
   */
  Map<PointId, PointState> points(List<Point> points, int epoch, Events.View view) {
    Map<PointId, PointState> found = new LinkedHashMap<>();
    for (Point p : points) {
      List<Ref> triggers = new ArrayList<>();
      p.states()
          .forEach(
              s ->
                  triggers.add(
                      events.trigger(
                          new Coordinate.Owner.OfPointState(p.id(), s.id()),
                          s.triggers(),
                          epoch,
                          view)));
      int variable = dominance("state of " + p.id(), triggers);
      found.put(p.id(), new PointState(p, variable));
    }
    return found;
  }

  /**
   * The true state at a point.
   *
   * @param variable its variable, state 0 = normal; or {@code -1 - s} where it is known to be s
   */
  record PointState(Point point, int variable) {}

  /** The state of a pair in which both points are normal and read alike. */
  static final int ALIKE = 1;

  /**
   * Whether two points that are compared are both normal, and then whether they differ.
   *
   * @return its variable: state 0 = one of them is not normal, 1 = both are and read alike, 2 =
   *     both are and differ; or {@code -1 - s} where it is known to be s
   */
  int pair(Step step, PointState first, PointState second, int epoch, Events.View view) {
    Observation.TrueState differs =
        ((Observation.OfStates) step.shows().orElseThrow()).states().get(0);
    Ref apart =
        events.trigger(
            new Coordinate.Owner.OfStepState(step.id(), differs.id()),
            differs.triggers(),
            epoch,
            view);
    Ref normal = wiring.and("both normal at " + step.id(), isNormal(first), isNormal(second));
    if (normal instanceof Ref.Known n && apart instanceof Ref.Known a) {
      return -1 - pairState(n.value(), a.value());
    } else if (normal.equals(Ref.NO)) {
      return -1;
    }
    return wiring.variable(
        "pair of " + step.id(),
        3,
        List.of(normal, apart),
        t -> {
          double[] row = new double[3];
          row[pairState(t[0], t[1])] = 1;
          return row;
        });
  }

  private static int pairState(boolean normal, boolean apart) {
    return !normal ? 0 : apart ? 2 : ALIKE;
  }

  private static Ref isNormal(PointState point) {
    return point.variable() < 0 ? Ref.of(point.variable() == -1) : new Ref.At(point.variable(), 0);
  }

  /**
   * First active trigger, counted from 1; 0 where none is. Returns {@code -1 - s} where the state
   * is known to be s.
   */
  private int dominance(String name, List<Ref> triggers) {
    int n = triggers.size();
    int last = -1;
    for (int j = 0; j < n; j++) {
      Ref t = triggers.get(j);
      if (t.equals(Ref.NO)) {
        continue;
      }
      if (t.equals(Ref.YES) && last < 0) {
        return -1 - (j + 1);
      }
      int before = last;
      int state = j + 1;
      int[] parents =
          t instanceof Ref.At at
              ? before < 0 || before == at.variable()
                  ? new int[] {at.variable()}
                  : new int[] {before, at.variable()}
              : new int[] {before};
      last =
          wiring.model.conditional(
              name,
              n + 1,
              parents,
              at -> {
                int so = before < 0 ? 0 : at[0];
                boolean active =
                    !(t instanceof Ref.At ref) || at[parents.length - 1] == ref.state();
                double[] row = new double[n + 1];
                row[so > 0 ? so : active ? state : 0] = 1;
                return row;
              });
    }
    return last;
  }
}
