package org.faultwright.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A discrete probability model in the making: variables, and factors whose product is the joint
 * distribution. Entries of a factor are constants or parameters whose values may change later
 * without compiling again. Not thread-safe.
 */
public final class Model {

  /**
   * A non-negative function of some variables.
   *
   * @param variables the variables, without repetition
   * @param entries expression nodes; the last variable's state runs fastest
   */
  record Factor(int[] variables, int[] entries) {}

  final Expressions expressions = new Expressions();
  final List<Factor> factors = new ArrayList<>();
  private final List<String> names = new ArrayList<>();
  private final List<Integer> states = new ArrayList<>();
  private final List<Boolean> observable = new ArrayList<>();
  private double[] parameterValues = new double[16];
  private int parameterCount;

  /**
   * Adds a variable.
   *
   * @param name for messages
   * @param stateCount number of states, from 2
   * @return the variable's number, from 0
   */
  public int variable(String name, int stateCount) {
    if (stateCount < 2) {
      throw new IllegalArgumentException("stateCount must be at least 2: " + stateCount);
    }
    names.add(name);
    states.add(stateCount);
    observable.add(false);
    return names.size() - 1;
  }

  /** Lets evidence about a variable be entered, and its marginal be asked for, after compiling. */
  public void observe(int variable) {
    observable.set(variable, true);
  }

  /**
   * Adds a parameter: a number that is a leaf of the circuit.
   *
   * @param value its value until another is set, not negative
   * @return the parameter's number, from 0
   */
  public int parameter(double value) {
    if (parameterCount == parameterValues.length) {
      parameterValues = Arrays.copyOf(parameterValues, parameterCount * 2);
    }
    parameterValues[parameterCount] = value;
    return parameterCount++;
  }

  /** A constant, as an entry of a factor. */
  public int constant(double value) {
    return expressions.constant(value);
  }

  /** A parameter, as an entry of a factor. */
  public int entry(int parameter) {
    return expressions.parameter(parameter);
  }

  /**
   * Adds a factor.
   *
   * @param variables its variables, without repetition
   * @param entries as many as the product of their state counts; the last variable's state runs
   *     fastest
   */
  public void factor(int[] variables, int[] entries) {
    int size = 1;
    for (int v : variables) {
      size *= states(v);
    }
    if (entries.length != size) {
      throw new IllegalArgumentException(
          "entries must be " + size + " for these variables: " + entries.length);
    }
    factors.add(new Factor(variables.clone(), entries.clone()));
  }

  /** Number of variables. */
  public int variables() {
    return names.size();
  }

  /** Name of a variable. */
  public String name(int variable) {
    return names.get(variable);
  }

  /** Number of states of a variable. */
  public int states(int variable) {
    return states.get(variable);
  }

  /** Whether evidence about the variable can be entered. */
  public boolean isObservable(int variable) {
    return observable.get(variable);
  }

  /**
   * The model as a Bayesian network.
   *
   * @param parameters values of the parameters
   * @throws IllegalStateException unless each variable is the last one of exactly one factor, whose
   *     other variables were added before it
   */
  public DiscreteNetwork network(double[] parameters) {
    DiscreteNetwork.Node[] nodes = new DiscreteNetwork.Node[variables()];
    for (Factor f : factors) {
      int child = f.variables[f.variables.length - 1];
      int[] parents = Arrays.copyOf(f.variables, f.variables.length - 1);
      if (nodes[child] != null || Arrays.stream(parents).anyMatch(p -> p >= child)) {
        throw new IllegalStateException("factors must form a Bayesian network: " + name(child));
      }
      double[] rows = new double[f.entries.length];
      for (int i = 0; i < rows.length; i++) {
        int e = f.entries[i];
        rows[i] =
            expressions.kind(e) == Expressions.PARAMETER
                ? parameters[expressions.left(e)]
                : expressions.value(e);
      }
      nodes[child] = new DiscreteNetwork.Node(name(child), states(child), parents, rows);
    }
    return new DiscreteNetwork(List.of(nodes));
  }

  double[] parameterValues() {
    return Arrays.copyOf(parameterValues, parameterCount);
  }
}
