package org.faultwright.faulttree;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.faulttree.Importance.Bearing;

/** Computes the figures of one top event. Not thread-safe. */
final class Analyst {

  /** Events times nodes that may be looked at for figures that need a pass for each event. */
  private static final long MOST_WORK = 300_000_000;

  private final FaultLogic logic;
  private final Dependence dependence;
  private final AnalysisLimits limits;
  private final Diagrams diagrams;
  private final int n;
  private final double[] p;
  private final double[] q;
  private int root;

  Analyst(FaultLogic logic, Dependence dependence, AnalysisLimits limits) {
    this.logic = logic;
    this.dependence = dependence;
    this.limits = limits;
    this.diagrams = new Diagrams(limits.diagramNodes());
    this.n = logic.basics().size();
    this.p = new double[n];
    this.q = new double[n];
    for (int v = 0; v < n; v++) {
      TreeNode node = logic.tree().nodes().get(logic.basics().get(v));
      p[v] = ((TreeNode.Basic) node).probability().p();
      q[v] = ((TreeNode.Basic) node).probability().pNot();
    }
  }

  TreeFigures analyse() throws OverBudgetException {
    Map<EventName, Integer> basics = new LinkedHashMap<>();
    for (int v = 0; v < n; v++) {
      basics.put(logic.basics().get(v), diagrams.function(v));
    }
    root = logic.evaluate(new DiagramAlgebra(diagrams), basics);
    int nodes = reached(root).length;
    Sensitivity sensitivity = sensitivity();
    CutSetResult cutSets = cutSets();
    Optional<double[]> inCutSets = cutSets instanceof CutSets c ? pInCutSets(c) : Optional.empty();
    return new TreeFigures(
        logic.top(),
        p(root, p, q, false),
        p(root, p, q, true),
        nodes,
        TreeCircuit.evaluate(logic, dependence, limits.circuitEntries()),
        cutSets,
        sensitivity.isCoherent() ? Optional.empty() : primeImplicants(),
        importances(sensitivity, inCutSets));
  }

  /** The nodes below a node and itself, children first. */
  private int[] reached(int from) {
    boolean[] used = new boolean[from + 2];
    used[from] = true;
    int count = 0;
    for (int i = from; i >= 2; i--) {
      if (used[i]) {
        count++;
        used[diagrams.low(i)] = true;
        used[diagrams.high(i)] = true;
      }
    }
    int[] reached = new int[count];
    for (int i = from; i >= 2; i--) {
      if (used[i]) {
        reached[--count] = i;
      }
    }
    return reached;
  }

  /** Probability of a function, or of its opposite: sums of products, no differences. */
  private double p(int function, double[] yes, double[] no, boolean opposite) {
    double[] values = new double[function + 2];
    values[opposite ? Diagrams.ZERO : Diagrams.ONE] = 1;
    for (int node : reached(function)) {
      int v = diagrams.variable(node);
      values[node] = yes[v] * values[diagrams.high(node)] + no[v] * values[diagrams.low(node)];
    }
    return Math.min(1, values[function]);
  }

  /**
   * How the top event depends on each basic event.
   *
   * @param towards P(the top event happens with the event and not without it)
   * @param against P(it happens without the event and not with it)
   * @param canTowards whether that is possible, whatever the probabilities
   */
  private record Sensitivity(
      double[] towards, double[] against, boolean[] canTowards, boolean[] canAgainst) {

    boolean isCoherent() {
      for (boolean against : canAgainst) {
        if (against) {
          return false;
        }
      }
      return true;
    }
  }

  private Sensitivity sensitivity() throws OverBudgetException {
    Sensitivity result =
        new Sensitivity(new double[n], new double[n], new boolean[n], new boolean[n]);
    int[] nodes = reached(root);
    int[] towards = new int[nodes.length];
    int[] against = new int[nodes.length];
    for (int i = 0; i < nodes.length; i++) {
      int low = diagrams.low(nodes[i]);
      int high = diagrams.high(nodes[i]);
      towards[i] = diagrams.andNot(high, low);
      against[i] = diagrams.andNot(low, high);
    }
    double[] values = new double[diagrams.size()];
    values[Diagrams.ONE] = 1;
    for (int node = 2; node < values.length; node++) {
      int v = diagrams.variable(node);
      values[node] = p[v] * values[diagrams.high(node)] + q[v] * values[diagrams.low(node)];
    }
    double[] arrives = new double[root + 2];
    arrives[root] = 1;
    for (int i = nodes.length - 1; i >= 0; i--) {
      int node = nodes[i];
      int v = diagrams.variable(node);
      arrives[diagrams.high(node)] += arrives[node] * p[v];
      arrives[diagrams.low(node)] += arrives[node] * q[v];
      result.towards[v] += arrives[node] * values[towards[i]];
      result.against[v] += arrives[node] * values[against[i]];
      result.canTowards[v] |= towards[i] != Diagrams.ZERO;
      result.canAgainst[v] |= against[i] != Diagrams.ZERO;
    }
    return result;
  }

  private CutSetResult cutSets() {
    try {
      int all = diagrams.minimal(root);
      int possible = all;
      for (List<EventName> group : dependence.exclusive()) {
        possible = withoutPairs(possible, group);
      }
      int within = diagrams.atMost(possible, limits.maxOrder());
      Family family = new Family(diagrams, possible, p);
      Family tooLong = new Family(diagrams, diagrams.difference(possible, within), p);
      Family.Listing listing =
          new Family(diagrams, within, p).list(limits.pCutoff(), limits.mostListed());
      return new CutSets(
          family.count(),
          family.countsByOrder(CutSets.ORDERS_COUNTED),
          listing.sets().stream().map(s -> new CutSets.CutSet(names(s.elements()), s.p())).toList(),
          new CutSets.LeftOut(
              new CutSets.LeftOut.Part(tooLong.count(), tooLong.pSum()),
              listing.tooUnlikely(),
              listing.noRoom()),
          possible == all ? 0 : new Family(diagrams, all, p).count() - family.count(),
          family.pSum(),
          family.minCutUpperBound(CutSets.MOST_MULTIPLIED));
    } catch (OverBudgetException e) {
      return new CutSetResult.OverBudget(limits.diagramNodes());
    }
  }

  private int withoutPairs(int family, List<EventName> group) throws OverBudgetException {
    int left = family;
    for (int i = 0; i < group.size(); i++) {
      for (int j = 0; j < i; j++) {
        int a = logic.basics().indexOf(group.get(i));
        int b = logic.basics().indexOf(group.get(j));
        if (a >= 0 && b >= 0) {
          left = diagrams.difference(left, diagrams.containing(diagrams.containing(left, a), b));
        }
      }
    }
    return left;
  }

  private List<EventName> names(int[] variables) {
    return Arrays.stream(variables).mapToObj(logic.basics()::get).toList();
  }

  /** For each event P(some minimal cut set with it happens); empty where it is too much. */
  private Optional<double[]> pInCutSets(CutSets known) {
    if (known.impossible() > 0 || (long) n * diagrams.size() > MOST_WORK) {
      return Optional.empty();
    }
    try {
      double[] found = new double[n];
      int family = diagrams.minimal(root);
      for (int v = 0; v < n; v++) {
        found[v] = p(diagrams.union(diagrams.containing(family, v)), p, q, false);
      }
      return Optional.of(found);
    } catch (OverBudgetException e) {
      return Optional.empty();
    }
  }

  private Optional<PrimeImplicants> primeImplicants() {
    double[] literals = new double[2 * n];
    for (int v = 0; v < n; v++) {
      literals[2 * v] = p[v];
      literals[2 * v + 1] = q[v];
    }
    try {
      Family family = new Family(diagrams, diagrams.prime(root), literals);
      List<PrimeImplicants.Implicant> listed = new ArrayList<>();
      for (Family.Listed set : family.list(limits.pCutoff(), limits.mostListed()).sets()) {
        int[] happen =
            Arrays.stream(set.elements()).filter(x -> x % 2 == 0).map(x -> x / 2).toArray();
        int[] absent =
            Arrays.stream(set.elements()).filter(x -> x % 2 == 1).map(x -> x / 2).toArray();
        listed.add(new PrimeImplicants.Implicant(names(happen), names(absent), set.p()));
      }
      return Optional.of(new PrimeImplicants(family.count(), listed));
    } catch (OverBudgetException e) {
      return Optional.empty();
    }
  }

  private List<Importance> importances(Sensitivity sensitivity, Optional<double[]> inCutSets) {
    double pTop = p(root, p, q, false);
    int[] nodes = reached(root);
    boolean passes = (long) n * nodes.length <= MOST_WORK;
    double[] values = new double[root + 2];
    List<Importance> all = new ArrayList<>();
    for (int v = 0; v < n; v++) {
      double birnbaum = sensitivity.towards[v] - sensitivity.against[v];
      Optional<Importance.Relative> relative = Optional.empty();
      if (pTop > 0) {
        // P(top) is linear in p; a pass for each event keeps the digits that a difference loses
        double with = passes ? pWith(v, 1, nodes, values) : within01(pTop + q[v] * birnbaum);
        double without = passes ? pWith(v, 0, nodes, values) : within01(pTop - p[v] * birnbaum);
        int event = v;
        relative =
            Optional.of(
                new Importance.Relative(
                    birnbaum * p[v] / pTop,
                    Math.min(1, p[v] * with / pTop),
                    inCutSets
                        .map(in -> OptionalDouble.of(in[event] / pTop))
                        .orElse(OptionalDouble.empty()),
                    with / pTop,
                    without == 0 ? Double.POSITIVE_INFINITY : pTop / without));
      }
      all.add(
          new Importance(
              logic.basics().get(v),
              p[v],
              bearing(sensitivity.canTowards[v], sensitivity.canAgainst[v]),
              birnbaum,
              relative));
    }
    return all;
  }

  private static double within01(double x) {
    return Math.max(0, Math.min(1, x));
  }

  /** P(top) where one event has another probability. */
  private double pWith(int event, double pEvent, int[] nodes, double[] values) {
    values[Diagrams.ONE] = 1;
    for (int node : nodes) {
      int v = diagrams.variable(node);
      double yes = v == event ? pEvent : p[v];
      double no = v == event ? 1 - pEvent : q[v];
      values[node] = yes * values[diagrams.high(node)] + no * values[diagrams.low(node)];
    }
    return Math.min(1, values[root]);
  }

  private static Bearing bearing(boolean towards, boolean against) {
    return towards && against
        ? Bearing.BOTH
        : towards ? Bearing.TOWARDS : against ? Bearing.AGAINST : Bearing.NONE;
  }
}
