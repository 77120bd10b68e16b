package org.faultwright.inference;

import java.util.Arrays;
import java.util.BitSet;
import java.util.concurrent.atomic.AtomicReferenceArray;

/**
 * A flat arithmetic circuit: leaves (constants, parameters, evidence indicators), then sums and
 * products in an order in which operands come first. Its value with all indicators at 1 is 1 (for a
 * normalised model); with the indicators that contradict the evidence at 0, P(evidence); with
 * likelihoods in their place, the probability of uncertain evidence. Immutable; shared by any
 * number of threads, each with its own {@link Evaluation}.
 *
 * <p>Cost of an evaluation: {@link #operations()} additions and multiplications upward, and up to
 * three times as many for both passes. The downward pass is laid out when it is first asked for,
 * and computes only the derivatives of {@link #asking asked} leaves.
 */
public final class Circuit implements Compilation {

  /** What circuits with other leaf values have in common. */
  static final class Structure {
    final Graph graph;
    final int root;
    final int[] parameterLeaf;
    final Indicators indicators;

    /** Cells of leaves and operations; the cell of number {@code leaves} holds 1. */
    final int[] cells;

    final Program up;
    private final AtomicReferenceArray<BitSet> dependants;

    Structure(Graph graph, int root, int[] parameterLeaf, Indicators indicators) {
      this.graph = graph;
      this.root = root;
      this.parameterLeaf = parameterLeaf;
      this.indicators = indicators;
      cells = new int[graph.nodes()];
      for (int l = 0; l < graph.leaves; l++) {
        cells[l] = l;
      }
      up = Program.of(graph, cells, graph.leaves + 1, new int[] {root});
      dependants = new AtomicReferenceArray<>(indicators.states().length);
    }

    int rootCell() {
      return cells[root];
    }

    /** The cells that depend on the weights of a variable. */
    BitSet dependants(int variable) {
      BitSet known = dependants.get(variable);
      if (known == null) {
        int from = indicators.first()[variable];
        known = up.above(from, from + indicators.states()[variable]);
        dependants.set(variable, known);
      }
      return known;
    }
  }

  /**
   * The downward pass for some leaves.
   *
   * @param cells for each leaf the cell of its derivative, -1 where there is none
   */
  record Downward(Program program, int[] cells) {}

  final Structure structure;
  final double[] leafValues;

  /** For each leaf whether the downward pass is to reach it. */
  private final boolean[] asked;

  private volatile Downward downward;

  private Circuit(Structure structure, double[] leafValues, boolean[] asked) {
    this.structure = structure;
    this.leafValues = leafValues;
    this.asked = asked;
  }

  private static void ask(Structure structure, boolean[] asked, int variable) {
    int from = structure.indicators.leaf(variable, 0);
    Arrays.fill(asked, from, from + structure.indicators.states()[variable], true);
  }

  /**
   * Lays out what the root depends on.
   *
   * @param indicators where those of the expressions are to stand
   * @param parameters values of the parameters
   */
  static Circuit of(Indicators indicators, Expressions e, int root, double[] parameters) {
    boolean[] used = new boolean[root + 1];
    used[root] = true;
    int operations = 0;
    for (int n = root; n >= 0; n--) {
      if (used[n] && e.kind(n) >= Expressions.SUM) {
        used[e.left(n)] = true;
        used[e.right(n)] = true;
        operations++;
      }
    }
    int[] place = new int[root + 1];
    int[] parameterLeaf = new int[parameters.length];
    Arrays.fill(parameterLeaf, -1);
    int next = indicators.end();
    double[] leafValues = new double[next + 64];
    Arrays.fill(leafValues, 0, next, 1);
    for (int n = 0; n <= root; n++) {
      if (!used[n]) {
        continue;
      }
      if (e.kind(n) == Expressions.EVIDENCE) {
        place[n] = indicators.leaf(e.left(n), e.right(n));
      } else if (e.kind(n) < Expressions.SUM) {
        if (next == leafValues.length) {
          leafValues = Arrays.copyOf(leafValues, next * 2);
        }
        place[n] = next;
        if (e.kind(n) == Expressions.PARAMETER) {
          leafValues[next] = parameters[e.left(n)];
          parameterLeaf[e.left(n)] = next;
        } else {
          leafValues[next] = e.value(n);
        }
        next++;
      }
    }
    Graph graph = new Graph(next, operations);
    for (int n = 0; n <= root; n++) {
      if (used[n] && e.kind(n) >= Expressions.SUM) {
        int a = place[e.left(n)];
        int b = place[e.right(n)];
        place[n] = e.kind(n) == Expressions.SUM ? graph.sum(a, b) : graph.product(a, b);
      }
    }
    boolean[] asked = new boolean[next];
    Arrays.fill(asked, 0, indicators.end(), true);
    return new Circuit(
        new Structure(graph, place[root], parameterLeaf, indicators),
        Arrays.copyOf(leafValues, next),
        asked);
  }

  /** Number of sums and products, each of two operands. */
  public int operations() {
    return structure.graph.operations();
  }

  /** Number of variables of the model. */
  public int variables() {
    return structure.indicators.states().length;
  }

  /** Number of states of a variable. */
  public int states(int variable) {
    return structure.indicators.states()[variable];
  }

  /** Whether evidence about the variable can be entered. */
  public boolean isObservable(int variable) {
    return structure.indicators.has(variable);
  }

  /** A fresh evaluation: no evidence, parameters as in the model. */
  public Evaluation evaluation() {
    return new Evaluation(this);
  }

  /**
   * Evaluations of many sets of evidence at once.
   *
   * @param count how many, at least 1
   */
  public Lanes lanes(int count) {
    return new Lanes(this, count);
  }

  /**
   * This circuit, with a downward pass that reaches only some variables: less work where few
   * marginals are asked for. The marginals of others must not be asked.
   */
  public Circuit asking(int... variables) {
    boolean[] only = new boolean[asked.length];
    for (int v : variables) {
      ask(structure, only, v);
    }
    return new Circuit(structure, leafValues, only);
  }

  /** This circuit, with a downward pass that reaches the parameters too. */
  public Circuit askingParameters() {
    boolean[] more = asked.clone();
    for (int leaf : structure.parameterLeaf) {
      if (leaf >= 0) {
        more[leaf] = true;
      }
    }
    return new Circuit(structure, leafValues, more);
  }

  /** This circuit with other parameter values. The structure is shared. */
  public Circuit withParameters(double[] values) {
    double[] leaf = leafValues.clone();
    for (int p = 0; p < values.length; p++) {
      if (structure.parameterLeaf[p] >= 0) {
        leaf[structure.parameterLeaf[p]] = values[p];
      }
    }
    Circuit other = new Circuit(structure, leaf, asked);
    other.downward = downward;
    return other;
  }

  /** This circuit with other weights of the states to start from: the first of the values. */
  Circuit withIndicators(double[] values) {
    double[] leaf = leafValues.clone();
    System.arraycopy(values, 0, leaf, 0, structure.indicators.end());
    Circuit other = new Circuit(structure, leaf, asked);
    other.downward = downward;
    return other;
  }

  Downward downward() {
    Downward known = downward;
    if (known == null) {
      known = layDown();
      downward = known;
    }
    return known;
  }

  private Downward layDown() {
    Graph graph = structure.graph;
    int[] derivatives = new int[graph.leaves];
    Graph down = graph.downward(structure.root, asked, derivatives);
    int[] cells = Arrays.copyOf(structure.cells, down.nodes());
    cells[graph.nodes()] = graph.leaves;
    Program program = Program.of(down, cells, structure.up.end, derivatives);
    for (int l = 0; l < derivatives.length; l++) {
      derivatives[l] = derivatives[l] < 0 || !asked[l] ? -1 : cells[derivatives[l]];
    }
    return new Downward(program, derivatives);
  }
}
