package org.faultwright.inference;

import java.util.Arrays;
import java.util.function.Function;

/**
 * Evidence that hangs together through an unknown outside the circuit: a weighted sum of
 * evaluations, one for each value that the unknown may have. With one component it is that
 * evaluation. Confined to one thread.
 *
 * <p>Cost: one upward and one downward pass for each component.
 */
public final class Mixture {

  private final Evaluation evaluation;
  private final int[] variables;
  private final double[] logWeights;
  private final double[][][] likelihoods;

  /** The weights of the variables' states before any component. */
  private final double[][] plain;

  private double[] logP;
  private double logTotal = Double.NaN;
  private double[][] marginals;

  /**
   * A mixture.
   *
   * @param evaluation the evidence that all components share; from now on this mixture's own
   * @param variables the variables on which the components differ, each once
   * @param logWeights ln of the weight of each component, not all negative infinity
   * @param likelihoods for each component and each of the variables a likelihood over its states
   */
  public Mixture(
      Evaluation evaluation, int[] variables, double[] logWeights, double[][][] likelihoods) {
    this.evaluation = evaluation;
    this.variables = variables.clone();
    this.logWeights = logWeights.clone();
    this.likelihoods = likelihoods;
    plain = new double[variables.length][];
    for (int i = 0; i < variables.length; i++) {
      plain[i] = new double[evaluation.states(variables[i])];
      for (int s = 0; s < plain[i].length; s++) {
        plain[i][s] = evaluation.weight(variables[i], s);
      }
    }
  }

  /** Evidence without an unknown. */
  public static Mixture of(Evaluation evaluation) {
    return new Mixture(evaluation, new int[0], new double[1], new double[1][0][]);
  }

  /** Number of components. */
  public int components() {
    return logWeights.length;
  }

  /**
   * The upward passes.
   *
   * @return ln P(evidence); negative infinity when the evidence is impossible
   */
  public double upward() {
    logP = new double[logWeights.length];
    double most = Double.NEGATIVE_INFINITY;
    for (int k = 0; k < logP.length; k++) {
      enter(k);
      logP[k] = logWeights[k] + evaluation.upward();
      most = Math.max(most, logP[k]);
    }
    if (most == Double.NEGATIVE_INFINITY) {
      logTotal = most;
      return most;
    }
    double sum = 0;
    for (double p : logP) {
      sum += Math.exp(p - most);
    }
    logTotal = most + Math.log(sum);
    return logTotal;
  }

  /** P(component | evidence), after the upward passes. */
  public double p(int component) {
    return Math.exp(logP[component] - logTotal);
  }

  /** The downward passes, after {@link #upward()} has returned a finite number. */
  public void downward() {
    if (logWeights.length == 1) {
      evaluation.downward();
      return;
    }
    Circuit circuit = evaluation.circuit();
    marginals = new double[circuit.variables()][];
    for (int k = 0; k < logP.length; k++) {
      double p = p(k);
      if (p == 0) {
        continue;
      }
      enter(k);
      evaluation.upward();
      evaluation.downward();
      for (int v = 0; v < marginals.length; v++) {
        if (circuit.isObservable(v)) {
          if (marginals[v] == null) {
            marginals[v] = new double[circuit.states(v)];
          }
          for (int s = 0; s < marginals[v].length; s++) {
            marginals[v][s] += p * evaluation.marginal(v, s);
          }
        }
      }
    }
  }

  /** P(variable = state | evidence), after both passes. */
  public double marginal(int variable, int state) {
    if (logWeights.length == 1) {
      return evaluation.marginal(variable, state);
    }
    if (marginals[variable] == null) {
      throw new IllegalArgumentException("variable cannot be observed: " + variable);
    }
    return marginals[variable][state];
  }

  /**
   * Sums over the components, each weighed by its probability, what is asked of an evaluation after
   * both passes while some states of a variable are ruled out: parts and derivatives of
   * P(evidence), divided by the P(evidence) that stands. To be asked after the upward passes.
   *
   * @param circuit the circuit, or one that differs in what it asks for
   * @param variable none of those on which the components differ
   * @param only the one state that is left to it; -1 rules out none
   * @param numbers what is asked of an evaluation, divided by its own P(evidence)
   */
  public double[] sum(
      Circuit circuit, int variable, int only, Function<Evaluation, double[]> numbers) {
    Evaluation other = evaluation.on(circuit);
    for (int s = 0; only >= 0 && s < circuit.states(variable); s++) {
      if (s != only) {
        other.setWeight(variable, s, 0);
      }
    }
    double[] sum = new double[0];
    for (int k = 0; k < logP.length; k++) {
      enter(k, other);
      double logShare = logWeights[k] + other.upward() - logTotal;
      if (logShare == Double.NEGATIVE_INFINITY) {
        continue;
      }
      other.downward();
      double[] of = numbers.apply(other);
      sum = Arrays.copyOf(sum, of.length);
      for (int i = 0; i < of.length; i++) {
        sum[i] += Math.exp(logShare) * of[i];
      }
    }
    return sum;
  }

  /** The circuit. */
  public Circuit circuit() {
    return evaluation.circuit();
  }

  /**
   * The circuit with the evidence folded in, in which only the given variables can still be
   * weighed, up to a constant factor. The variables on which the components differ cannot be among
   * them where there are several components.
   */
  public Circuit given(int[] kept) {
    if (logWeights.length == 1) {
      return evaluation.given(kept);
    }
    for (int v : variables) {
      if (Arrays.stream(kept).anyMatch(x -> x == v)) {
        throw new IllegalArgumentException("variable differs between components: " + v);
      }
    }
    CircuitSum sum = new CircuitSum();
    double most = Arrays.stream(logWeights).max().orElseThrow();
    for (int k = 0; k < logP.length; k++) {
      if (p(k) > 0) {
        enter(k);
        evaluation.upward();
        sum.add(evaluation.given(kept), Math.exp(logWeights[k] - most));
      }
    }
    return sum.circuit();
  }

  private void enter(int component) {
    enter(component, evaluation);
  }

  private void enter(int component, Evaluation into) {
    for (int i = 0; i < variables.length; i++) {
      for (int s = 0; s < plain[i].length; s++) {
        into.setWeight(variables[i], s, plain[i][s] * likelihoods[component][i][s]);
      }
    }
  }
}
