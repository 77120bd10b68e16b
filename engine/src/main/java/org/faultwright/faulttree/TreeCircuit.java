package org.faultwright.faulttree;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.faultwright.inference.Circuit;
import org.faultwright.inference.CircuitCompiler;
import org.faultwright.inference.Compilation;
import org.faultwright.inference.Evaluation;
import org.faultwright.inference.Model;

/**
 * A fault tree as a Bayesian network, compiled into a circuit: a second way to its probability,
 * which has nothing in common with decision diagrams, and the only one that takes basic events
 * which depend on one another.
 */
final class TreeCircuit implements FaultLogic.Algebra<TreeCircuit.Literal, RuntimeException> {

  /** Something true or false. */
  sealed interface Literal {}

  /** True whatever happens, or never. */
  record Known(boolean value) implements Literal {}

  /** Whether a variable is, or is not, in a state. */
  record At(int variable, int state, boolean is) implements Literal {
    boolean holds(int actual) {
      return (actual == state) == is;
    }
  }

  private final Model model = new Model();
  private final Map<EventName, Literal> basics = new LinkedHashMap<>();

  private final boolean named;
  private int parts;

  /**
   * An empty network.
   *
   * @param named whether each gate gets a variable of its own
   */
  private TreeCircuit(boolean named) {
    this.named = named;
  }

  /** All events of a tree as a network. */
  static TreeNetwork network(FaultTree tree) {
    TreeCircuit circuit = new TreeCircuit(true);
    Map<EventName, Literal> known = circuit.basics;
    tree.nodes()
        .forEach(
            (name, node) -> {
              if (node instanceof TreeNode.Basic basic) {
                double[] row = {basic.probability().pNot(), basic.probability().p()};
                known.put(name, circuit.root(name, row));
              } else if (node instanceof TreeNode.House house) {
                known.put(name, circuit.root(name, row(house.value())));
              }
            });
    for (EventName root : tree.roots()) {
      // what is known is extended by each gate as it becomes known
      FaultLogic.of(tree, root, false).evaluate(circuit, known);
    }
    Map<EventName, Integer> events = new LinkedHashMap<>();
    tree.nodes().keySet().forEach(n -> events.put(n, ((At) known.get(n)).variable()));
    return new TreeNetwork(circuit.model.network(new double[0]), events);
  }

  private Literal root(EventName name, double[] row) {
    return new At(model.conditional(name.value(), 2, new int[0], at -> row), 1, true);
  }

  private static double[] row(boolean yes) {
    return yes ? new double[] {0, 1} : new double[] {1, 0};
  }

  @Override
  public Literal named(EventName gate, Literal value) {
    if (!named) {
      return value;
    }
    Literal own =
        value instanceof Known known ? root(gate, row(known.value())) : copy(gate, (At) value);
    basics.put(gate, own);
    return own;
  }

  private Literal copy(EventName gate, At of) {
    int v =
        model.conditional(gate.value(), 2, new int[] {of.variable()}, at -> row(of.holds(at[0])));
    return new At(v, 1, true);
  }

  /** Compiles the tree and evaluates it with and without the top event known to have happened. */
  static CircuitResult evaluate(FaultLogic logic, Dependence dependence, double budget) {
    TreeCircuit tree = new TreeCircuit(false);
    tree.dependent(logic, dependence);
    for (EventName e : logic.basics()) {
      if (!tree.basics.containsKey(e)) {
        EventProbability p = ((TreeNode.Basic) logic.tree().nodes().get(e)).probability();
        int v =
            tree.model.conditional(e.value(), 2, new int[0], at -> new double[] {p.pNot(), p.p()});
        tree.basics.put(e, new At(v, 1, true));
      }
    }
    Literal top = logic.evaluate(tree, tree.basics);
    if (top instanceof Known known) {
      return new CircuitResult.Exact(known.value() ? 1 : 0, known.value() ? 0 : 1, Map.of(), 0);
    }
    At at = (At) top;
    tree.model.observe(at.variable());
    for (EventName e : logic.basics()) {
      tree.model.observe(((At) tree.basics.get(e)).variable());
    }
    Compilation compilation = CircuitCompiler.compile(tree.model, budget);
    if (compilation instanceof Compilation.OverBudget over) {
      return new CircuitResult.TooWide(over.predicted(), over.budget());
    }
    return tree.evaluate((Circuit) compilation, logic, at);
  }

  private CircuitResult evaluate(Circuit circuit, FaultLogic logic, At top) {
    double pTop = Math.exp(given(circuit, top, true).upward());
    double pNotTop = Math.exp(given(circuit, top, false).upward());
    Map<EventName, Double> posteriors = new LinkedHashMap<>();
    if (pTop > 0) {
      Evaluation evaluation = given(circuit, top, true);
      evaluation.upward();
      evaluation.downward();
      for (EventName e : logic.basics()) {
        At of = (At) basics.get(e);
        posteriors.put(e, Math.min(1, evaluation.marginal(of.variable(), of.state())));
      }
    }
    return new CircuitResult.Exact(
        Math.min(1, pTop), Math.min(1, pNotTop), posteriors, circuit.operations());
  }

  private static Evaluation given(Circuit circuit, At top, boolean happens) {
    Evaluation evaluation = circuit.evaluation();
    for (int s = 0; s < circuit.states(top.variable()); s++) {
      if (top.holds(s) != happens) {
        evaluation.weigh(top.variable(), s, 0);
      }
    }
    return evaluation;
  }

  /** Roots, and what depends on them, as far as the tree has it. */
  private void dependent(FaultLogic logic, Dependence dependence) {
    Map<Integer, Integer> roots = new LinkedHashMap<>();
    for (Dependence.Given given : dependence.given()) {
      if (given.members().stream().noneMatch(logic.basics()::contains)) {
        continue;
      }
      int[] parents = new int[given.roots().size()];
      for (int i = 0; i < parents.length; i++) {
        Dependence.Root root = dependence.roots().get(given.roots().get(i));
        parents[i] =
            roots.computeIfAbsent(
                given.roots().get(i),
                r ->
                    model.conditional(
                        root.name(), 2, new int[0], at -> new double[] {1 - root.p(), root.p()}));
      }
      int states = given.members().size() + 1;
      int v =
          model.conditional(
              given.members().toString(),
              states,
              parents,
              at -> {
                int row = Arrays.stream(at).reduce(0, (all, bit) -> all * 2 + bit);
                return given.rows().subList(row * states, (row + 1) * states).stream()
                    .mapToDouble(p -> p)
                    .toArray();
              });
      for (int m = 0; m < given.members().size(); m++) {
        basics.put(given.members().get(m), new At(v, m + 1, true));
      }
    }
  }

  /** A yes or no that follows from two literals. */
  private Literal both(Literal a, Literal b, Predicate<boolean[]> function) {
    At x = (At) a;
    At y = (At) b;
    boolean one = x.variable() == y.variable();
    int[] parents = one ? new int[] {x.variable()} : new int[] {x.variable(), y.variable()};
    int v =
        model.conditional(
            "part " + ++parts,
            2,
            parents,
            at -> {
              boolean yes = function.test(new boolean[] {x.holds(at[0]), y.holds(at[one ? 0 : 1])});
              return row(yes);
            });
    return new At(v, 1, true);
  }

  @Override
  public Literal constant(boolean value) {
    return new Known(value);
  }

  @Override
  public Literal not(Literal a) {
    return a instanceof Known known
        ? new Known(!known.value())
        : new At(((At) a).variable(), ((At) a).state(), !((At) a).is());
  }

  @Override
  public Literal and(List<Literal> of) {
    Literal all = new Known(true);
    for (Literal x : of) {
      if (x instanceof Known known) {
        all = known.value() ? all : known;
      } else if (all instanceof Known known) {
        all = known.value() ? x : known;
      } else if (!all.equals(x)) {
        all = both(all, x, t -> t[0] && t[1]);
      }
    }
    return all;
  }

  @Override
  public Literal or(List<Literal> of) {
    return not(and(of.stream().map(this::not).toList()));
  }

  @Override
  public Literal odd(List<Literal> of) {
    Literal odd = new Known(false);
    for (Literal x : of) {
      if (x instanceof Known known) {
        odd = known.value() ? not(odd) : odd;
      } else if (odd instanceof Known known) {
        odd = known.value() ? not(x) : x;
      } else {
        odd = both(odd, x, t -> t[0] != t[1]);
      }
    }
    return odd;
  }

  /** Counts up to {@code min}, one input at a time, so that a vote stays as wide as its count. */
  @Override
  public Literal atLeast(int min, List<Literal> of) {
    int certain = 0;
    List<At> open = new ArrayList<>();
    for (Literal x : of) {
      if (x instanceof At at) {
        open.add(at);
      } else if (((Known) x).value()) {
        certain++;
      }
    }
    int wanted = min - certain;
    if (wanted <= 0 || wanted > open.size()) {
      return new Known(wanted <= 0);
    }
    int counter = -1;
    for (At x : open) {
      int before = counter;
      boolean first = before < 0;
      int[] parents = first ? new int[] {x.variable()} : new int[] {before, x.variable()};
      counter =
          model.conditional(
              "part " + ++parts,
              wanted + 1,
              parents,
              at -> {
                double[] row = new double[wanted + 1];
                int count = first ? 0 : at[0];
                boolean more = x.holds(at[first ? 0 : 1]);
                row[Math.min(wanted, count + (more ? 1 : 0))] = 1;
                return row;
              });
    }
    return new At(counter, wanted, true);
  }
}
