package org.faultwright.inference;

import java.util.Arrays;

/**
 * Evidence on a circuit, and what follows from it: one upward pass gives the probability of the
 * evidence, one downward pass every marginal. Reusable; confined to one thread.
 *
 * <p>Where the probability of the evidence leaves the range of doubles, both passes are repeated
 * with a separate exponent for each node, so that hundreds of improbable findings are no
 * difficulty.
 */
public final class Evaluation {

  /** Below this the passes are repeated with separate exponents. */
  private static final double TINY = 1e-250;

  private final Circuit circuit;
  private final double[] values;
  private final double[] derivatives;
  private ScaledPasses scaled;
  private boolean usesScaled;
  private double logConstant;

  Evaluation(Circuit circuit) {
    this.circuit = circuit;
    this.values = new double[circuit.leaves + circuit.isSum.length];
    this.derivatives = new double[values.length];
    clear();
  }

  /** Forgets all evidence. */
  public void clear() {
    System.arraycopy(circuit.leafValues, 0, values, 0, circuit.leaves);
    logConstant = 0;
  }

  /**
   * Multiplies the weight of one state of a variable: 0 rules it out, a likelihood weighs it.
   *
   * @param weight not negative
   */
  public void weigh(int variable, int state, double weight) {
    values[leaf(variable, state)] *= weight;
  }

  /**
   * Multiplies the weights of all states of a variable by a likelihood, one entry for each state.
   */
  public void weigh(int variable, double[] likelihood) {
    int first = leaf(variable, 0);
    for (int s = 0; s < likelihood.length; s++) {
      values[first + s] *= likelihood[s];
    }
  }

  /** Multiplies the probability of the evidence by a factor that concerns no variable. */
  public void weighAll(double factor) {
    logConstant += Math.log(factor);
  }

  /** The circuit. */
  Circuit circuit() {
    return circuit;
  }

  /** Number of states of a variable. */
  public int states(int variable) {
    return circuit.states(variable);
  }

  /** The weight of a state as it stands. */
  public double weight(int variable, int state) {
    return values[leaf(variable, state)];
  }

  /** Sets the weight of a state. */
  public void setWeight(int variable, int state, double weight) {
    values[leaf(variable, state)] = weight;
  }

  private int leaf(int variable, int state) {
    int first = circuit.firstIndicator[variable];
    if (first < 0) {
      throw new IllegalArgumentException("variable cannot be observed: " + variable);
    }
    return first + state;
  }

  /**
   * The upward pass.
   *
   * @return ln P(evidence); negative infinity when the evidence is impossible
   */
  public double upward() {
    int leaves = circuit.leaves;
    boolean[] isSum = circuit.isSum;
    int[] left = circuit.left;
    int[] right = circuit.right;
    double[] v = values;
    for (int i = 0; i < isSum.length; i++) {
      double a = v[left[i]];
      double b = v[right[i]];
      v[leaves + i] = isSum[i] ? a + b : a * b;
    }
    double p = v[circuit.root];
    usesScaled = p < TINY;
    if (!usesScaled) {
      return Math.log(p) + logConstant;
    }
    if (scaled == null) {
      scaled = new ScaledPasses(circuit);
    }
    return scaled.upward(values) + logConstant;
  }

  /**
   * The circuit with the evidence folded in, in which only the given variables can still be
   * weighed, starting from their weights here. To be called after {@link #upward()} has returned a
   * finite number. Where P(evidence) lies far below the range of doubles nothing is folded.
   */
  public Circuit given(int[] kept) {
    return usesScaled ? circuit.withLeaves(values) : Residue.of(circuit, values, kept);
  }

  /** The downward pass, after {@link #upward()} has returned a finite number. */
  public void downward() {
    downwardEvenIfImpossible();
  }

  /**
   * The downward pass, also where the evidence is impossible: then only {@link #logDerivative} may
   * be asked, and tells what would be possible if one weight were different.
   */
  public void downwardEvenIfImpossible() {
    if (usesScaled) {
      scaled.downward();
      return;
    }
    int leaves = circuit.leaves;
    boolean[] isSum = circuit.isSum;
    int[] left = circuit.left;
    int[] right = circuit.right;
    double[] v = values;
    double[] d = derivatives;
    Arrays.fill(d, 0);
    d[circuit.root] = 1;
    for (int i = isSum.length - 1; i >= 0; i--) {
      double up = d[leaves + i];
      if (up == 0) {
        continue;
      }
      int a = left[i];
      int b = right[i];
      if (isSum[i]) {
        d[a] += up;
        d[b] += up;
      } else {
        double va = v[a];
        d[a] += up * v[b];
        d[b] += up * va;
      }
    }
  }

  /** P(variable = state | evidence), after both passes. */
  public double marginal(int variable, int state) {
    int leaf = leaf(variable, state);
    if (usesScaled) {
      return scaled.share(leaf);
    }
    return values[leaf] * derivatives[leaf] / values[circuit.root];
  }

  /**
   * P(variable = state, rest of the evidence) / P(evidence): the marginal as if nothing were known
   * of the variable itself.
   */
  public double derivative(int variable, int state) {
    int leaf = leaf(variable, state);
    if (usesScaled) {
      return scaled.derivative(leaf);
    }
    return derivatives[leaf] / values[circuit.root];
  }

  /**
   * ln of the derivative of P(evidence) by the weight of a state: what the weight 1 in place of 0
   * would add.
   */
  public double logDerivative(int variable, int state) {
    int leaf = leaf(variable, state);
    return (usesScaled ? scaled.logDerivative(leaf) : Math.log(derivatives[leaf])) + logConstant;
  }
}
