package org.faultwright.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

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

  final Expressions expressions;
  final List<Factor> factors = new ArrayList<>();
  private final List<String> names = new ArrayList<>();
  private final List<Integer> states = new ArrayList<>();
  private final List<Boolean> observable = new ArrayList<>();
  private double[] parameterValues = new double[16];
  private int parameterCount;

  /** An empty model. */
  public Model() {
    this(new Expressions());
  }

  private Model(Expressions expressions) {
    this.expressions = expressions;
  }

  /** A network as a model; evidence about each variable can be entered. */
  public static Model of(DiscreteNetwork network) {
    Model model = new Model();
    for (DiscreteNetwork.Node n : network.nodes()) {
      model.observe(model.variable(n.name(), n.states()));
    }
    for (int v = 0; v < network.nodes().size(); v++) {
      DiscreteNetwork.Node n = network.nodes().get(v);
      int[] variables = Arrays.copyOf(n.parents(), n.parents().length + 1);
      variables[n.parents().length] = v;
      int[] entries = new int[n.rows().length];
      for (int i = 0; i < entries.length; i++) {
        entries[i] = model.constant(n.rows()[i]);
      }
      model.factor(variables, entries);
    }
    return model;
  }

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

  /**
   * A variable with a row of probabilities for each combination of the parents' states.
   *
   * @param parents variables of this model
   * @param row for the parents' states, in the order of {@code parents}, P(state) of each state; it
   *     must not keep the array that it is given
   */
  public int conditional(String name, int states, int[] parents, Function<int[], double[]> row) {
    int v = variable(name, states);
    int[] variables = Arrays.copyOf(parents, parents.length + 1);
    variables[parents.length] = v;
    int rows = 1;
    for (int p : parents) {
      rows *= states(p);
    }
    int[] entries = new int[rows * states];
    int[] at = new int[parents.length];
    for (int r = 0; r < rows; r++) {
      double[] probabilities = row.apply(at);
      for (int s = 0; s < states; s++) {
        entries[r * states + s] = constant(probabilities[s]);
      }
      for (int i = parents.length - 1; i >= 0 && ++at[i] == states(parents[i]); i--) {
        at[i] = 0;
      }
    }
    factor(variables, entries);
    return v;
  }

  /**
   * Adds a noisy any of yes-or-no variables: present inputs act independently, each with its own
   * probability. Built as a chain, one input at a time, so that the number of table entries grows
   * with the number of inputs and not with their combinations.
   *
   * @param inputs the inputs, true in state 1
   * @param pActs for each input, P(it alone brings the event about | it is true)
   * @param pOtherwise P(event | no input true)
   * @return the event's number; true in state 1
   */
  public int noisyAny(String name, int[] inputs, double[] pActs, double pOtherwise) {
    int any = variable(inputs.length == 0 ? name : name + " otherwise", 2);
    factor(new int[] {any}, new int[] {constant(1 - pOtherwise), constant(pOtherwise)});
    for (int i = 0; i < inputs.length; i++) {
      int more = variable(i == inputs.length - 1 ? name : name + " up to input " + (i + 1), 2);
      int no = constant(1 - pActs[i]);
      int yes = constant(pActs[i]);
      int zero = constant(0);
      int one = constant(1);
      factor(
          new int[] {any, inputs[i], more}, new int[] {one, zero, no, yes, zero, one, zero, one});
      any = more;
    }
    return any;
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
   *     other variables are its parents
   */
  public DiscreteNetwork network(double[] parameters) {
    DiscreteNetwork.Node[] nodes = new DiscreteNetwork.Node[variables()];
    for (Factor f : factors) {
      int child = f.variables[f.variables.length - 1];
      int[] parents = Arrays.copyOf(f.variables, f.variables.length - 1);
      if (nodes[child] != null) {
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

  /** The same model with other values of its first parameters. */
  public Model withParameters(double[] values) {
    Model same = observing(Set.of(), Set.of());
    for (int v = 0; v < names.size(); v++) {
      same.observable.set(v, observable.get(v));
    }
    same.parameterValues = parameterValues();
    System.arraycopy(values, 0, same.parameterValues, 0, values.length);
    return same;
  }

  /** The value of an entry of a factor. */
  double value(int entry) {
    return expressions.kind(entry) == Expressions.PARAMETER
        ? parameterValues[expressions.left(entry)]
        : expressions.value(entry);
  }

  /** The same variables, of which only some can be observed, and none of the factors. */
  Model bare(Collection<Integer> observed) {
    return bare(new Expressions(), observed);
  }

  private Model bare(Expressions of, Collection<Integer> observed) {
    Model bare = new Model(of);
    bare.names.addAll(names);
    bare.states.addAll(states);
    for (int v = 0; v < names.size(); v++) {
      bare.observable.add(observed.contains(v));
    }
    return bare;
  }

  /** The same model, of which only some variables can be observed. */
  Model observing(Collection<Integer> some, Collection<Integer> more) {
    Set<Integer> observed = new HashSet<>(some);
    observed.addAll(more);
    Model same = bare(expressions, observed);
    same.factors.addAll(factors);
    same.parameterValues = parameterValues;
    same.parameterCount = parameterCount;
    return same;
  }

  double[] parameterValues() {
    return Arrays.copyOf(parameterValues, parameterCount);
  }
}
