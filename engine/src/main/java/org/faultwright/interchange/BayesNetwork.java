package org.faultwright.interchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;
import org.faultwright.faulttree.TreeNetwork;
import org.faultwright.inference.DiscreteNetwork;

/**
 * A Bayesian network with the names of its variables and states, for exchange.
 *
 * @param name what the network is called
 * @param variables the variables, in any order; no variable is its own ancestor
 */
public record BayesNetwork(String name, List<Variable> variables) {

  /**
   * Copies the list and checks it.
   *
   * @throws IllegalArgumentException when a name is used twice, a parent is none of the variables,
   *     or rows are missing
   */
  public BayesNetwork {
    checkName("network", name);
    variables = List.copyOf(variables);
    Set<String> names = new HashSet<>();
    for (Variable variable : variables) {
      if (!names.add(variable.name)) {
        throw new IllegalArgumentException("names must differ: " + variable.name);
      }
      int rows = 1;
      for (int p : variable.parents) {
        if (p < 0 || p >= variables.size()) {
          throw new IllegalArgumentException(
              "parents of " + variable.name + " must be variables of the network: " + p);
        }
        rows = Math.multiplyExact(rows, variables.get(p).states.size());
      }
      if (variable.rows.size() != rows) {
        throw new IllegalArgumentException(
            "rows of " + variable.name + " must be " + rows + ": " + variable.rows.size());
      }
    }
  }

  /**
   * A variable with its table.
   *
   * @param states names of its states, at least two
   * @param parents places of its parents among the variables
   * @param rows P(state | parents) for each combination of the parents' states, the last parent
   *     running fastest; each sums to 1
   */
  public record Variable(
      String name, List<String> states, List<Integer> parents, List<List<Double>> rows) {

    /** Copies the lists and checks the names. */
    public Variable {
      checkName("variable", name);
      states = List.copyOf(states);
      states.forEach(s -> checkName("state", s));
      if (states.size() < 2 || new HashSet<>(states).size() < states.size()) {
        throw new IllegalArgumentException(
            "states of " + name + " must be two or more, with different names: " + states);
      }
      parents = List.copyOf(parents);
      rows = rows.stream().map(List::copyOf).toList();
      for (List<Double> row : rows) {
        if (row.size() != states.size()) {
          throw new IllegalArgumentException(
              "row of " + name + " must have " + states.size() + " numbers: " + row.size());
        }
      }
    }

    /** Number of the state of this name. */
    public OptionalInt state(String of) {
      int at = states.indexOf(of);
      return at < 0 ? OptionalInt.empty() : OptionalInt.of(at);
    }
  }

  private static void checkName(String what, String name) {
    if (!isName(name)) {
      throw new IllegalArgumentException(
          "name of a " + what + " must be one line without quotes: " + name);
    }
  }

  /** Whether the text can be a name: not empty, on one line, without quotes. */
  static boolean isName(String text) {
    return !text.isEmpty() && text.chars().noneMatch(c -> c == '"' || Character.isISOControl(c));
  }

  /** A fault tree as a network; what stands between events is called {@code part 1} and so on. */
  public static BayesNetwork of(String name, TreeNetwork tree) {
    return of(name, tree.tables(), TreeNetwork.STATES);
  }

  /**
   * Plain tables as a network: a name that comes again gets a number behind it; states of variables
   * with two states are called no and yes, and of others 0, 1 and so on.
   */
  public static BayesNetwork of(String name, DiscreteNetwork tables) {
    return of(name, tables, List.of("no", "yes"));
  }

  private static BayesNetwork of(String name, DiscreteNetwork tables, List<String> two) {
    Map<String, Integer> taken = new HashMap<>();
    List<Variable> variables = new ArrayList<>();
    for (DiscreteNetwork.Node n : tables.nodes()) {
      int again = taken.merge(n.name(), 1, Integer::sum);
      List<String> states =
          n.states() == 2 ? two : IntStream.range(0, n.states()).mapToObj(String::valueOf).toList();
      List<List<Double>> rows = new ArrayList<>();
      for (int r = 0; r < n.rows().length; r += n.states()) {
        rows.add(Arrays.stream(n.rows(), r, r + n.states()).boxed().toList());
      }
      variables.add(
          new Variable(
              again == 1 ? n.name() : n.name() + " #" + again,
              states,
              Arrays.stream(n.parents()).boxed().toList(),
              rows));
    }
    return new BayesNetwork(name, variables);
  }

  /** Number of the variable of this name. */
  public OptionalInt variable(String of) {
    for (int v = 0; v < variables.size(); v++) {
      if (variables.get(v).name.equals(of)) {
        return OptionalInt.of(v);
      }
    }
    return OptionalInt.empty();
  }

  /** The tables alone; variables keep their numbers. */
  public DiscreteNetwork tables() {
    return new DiscreteNetwork(
        variables.stream()
            .map(
                v ->
                    new DiscreteNetwork.Node(
                        v.name,
                        v.states.size(),
                        v.parents.stream().mapToInt(p -> p).toArray(),
                        v.rows.stream().flatMap(List::stream).mapToDouble(p -> p).toArray()))
            .toList());
  }
}
