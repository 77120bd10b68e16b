package org.faultwright.inference;

import java.util.Arrays;

/**
 * A flat arithmetic circuit: leaves (constants, parameters, evidence indicators), then sums and
 * products in an order in which operands come first. Its value with all indicators at 1 is 1 (for a
 * normalised model); with the indicators that contradict the evidence at 0, P(evidence); with
 * likelihoods in their place, the probability of uncertain evidence. Immutable apart from nothing;
 * shared by any number of threads, each with its own {@link Evaluation}.
 *
 * <p>Cost of an evaluation: {@link #operations()} operations upward and about twice that downward.
 */
public final class Circuit implements Compilation {

  final int leaves;
  final boolean[] isSum;
  final int[] left;
  final int[] right;
  final int root;
  final double[] leafValues;
  final int[] parameterLeaf;
  final int[] firstIndicator;
  final int[] states;

  Circuit(
      int leaves,
      boolean[] isSum,
      int[] left,
      int[] right,
      int root,
      double[] leafValues,
      int[] parameterLeaf,
      int[] firstIndicator,
      int[] states) {
    this.leaves = leaves;
    this.isSum = isSum;
    this.left = left;
    this.right = right;
    this.root = root;
    this.leafValues = leafValues;
    this.parameterLeaf = parameterLeaf;
    this.firstIndicator = firstIndicator;
    this.states = states;
  }

  /** Lays out what the root depends on; indicators of one variable get consecutive leaves. */
  static Circuit of(Model model, int root) {
    Expressions e = model.expressions;
    boolean[] used = new boolean[e.size()];
    used[root] = true;
    int operations = 0;
    for (int n = root; n >= 0; n--) {
      if (used[n] && e.kind(n) >= Expressions.SUM) {
        used[e.left(n)] = true;
        used[e.right(n)] = true;
        operations++;
      }
    }
    int[] place = new int[e.size()];
    int[] firstIndicator = new int[model.variables()];
    int[] states = new int[model.variables()];
    Arrays.fill(firstIndicator, -1);
    int next = 0;
    for (int v = 0; v < model.variables(); v++) {
      states[v] = model.states(v);
      if (model.isObservable(v)) {
        firstIndicator[v] = next;
        for (int s = 0; s < states[v]; s++) {
          place[e.indicator(v, s)] = next++;
        }
      }
    }
    double[] parameters = model.parameterValues();
    int[] parameterLeaf = new int[parameters.length];
    Arrays.fill(parameterLeaf, -1);
    int indicators = next;
    for (int n = 0; n <= root; n++) {
      if (used[n] && (e.kind(n) == Expressions.CONSTANT || e.kind(n) == Expressions.PARAMETER)) {
        place[n] = next++;
      }
    }
    double[] leafValues = new double[next];
    Arrays.fill(leafValues, 0, indicators, 1);
    for (int n = 0; n <= root; n++) {
      if (used[n] && e.kind(n) == Expressions.CONSTANT) {
        leafValues[place[n]] = e.value(n);
      } else if (used[n] && e.kind(n) == Expressions.PARAMETER) {
        leafValues[place[n]] = parameters[e.left(n)];
        parameterLeaf[e.left(n)] = place[n];
      }
    }
    int leaves = next;
    boolean[] isSum = new boolean[operations];
    int[] left = new int[operations];
    int[] right = new int[operations];
    for (int n = 0; n <= root; n++) {
      if (used[n] && e.kind(n) >= Expressions.SUM) {
        int op = next - leaves;
        isSum[op] = e.kind(n) == Expressions.SUM;
        left[op] = place[e.left(n)];
        right[op] = place[e.right(n)];
        place[n] = next++;
      }
    }
    return new Circuit(
        leaves, isSum, left, right, place[root], leafValues, parameterLeaf, firstIndicator, states);
  }

  /** Number of sums and products. */
  public int operations() {
    return isSum.length;
  }

  /** Number of variables of the model. */
  public int variables() {
    return states.length;
  }

  /** Number of states of a variable. */
  public int states(int variable) {
    return states[variable];
  }

  /** Whether evidence about the variable can be entered. */
  public boolean isObservable(int variable) {
    return firstIndicator[variable] >= 0;
  }

  /** A fresh evaluation: no evidence, parameters as in the model. */
  public Evaluation evaluation() {
    return new Evaluation(this);
  }

  /** This circuit with other parameter values. The arrays of the structure are shared. */
  public Circuit withParameters(double[] values) {
    double[] leaf = leafValues.clone();
    for (int p = 0; p < values.length; p++) {
      if (parameterLeaf[p] >= 0) {
        leaf[parameterLeaf[p]] = values[p];
      }
    }
    return new Circuit(
        leaves, isSum, left, right, root, leaf, parameterLeaf, firstIndicator, states);
  }

  /** This circuit with other values of its leaves. */
  Circuit withLeaves(double[] values) {
    return new Circuit(
        leaves,
        isSum,
        left,
        right,
        root,
        Arrays.copyOf(values, leaves),
        parameterLeaf,
        firstIndicator,
        states);
  }
}
