package org.faultwright.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Compiles a model into an arithmetic circuit by symbolic variable elimination: the tables hold
 * expression nodes instead of numbers, so that what is left at the end is the network polynomial in
 * factored form.
 *
 * @see <a href="https://doi.org/10.1145/765568.765570">Darwiche, A differential approach to
 *     inference in Bayesian networks, Journal of the ACM 50(3), 2003</a>
 */
public final class CircuitCompiler {

  /** Table entries that compiling may make unless the caller says otherwise. */
  public static final double DEFAULT_BUDGET = 4e6;

  private static final int NONE = -1;

  private final Model model;
  private final Expressions expressions;

  /** For each variable the factors that it stands in; those that have been used up among them. */
  private final List<List<Model.Factor>> factorsOf = new ArrayList<>();

  private final Set<Model.Factor> used = Collections.newSetFromMap(new IdentityHashMap<>());
  private int root;

  private CircuitCompiler(Model model) {
    this.model = model;
    this.expressions = model.expressions.copy();
    this.root = expressions.one;
    for (int v = 0; v < model.variables(); v++) {
      factorsOf.add(new ArrayList<>(4));
    }
    model.factors.forEach(this::add);
  }

  private void add(Model.Factor f) {
    if (f.variables().length == 0) {
      root = expressions.product(root, f.entries()[0]);
    }
    for (int v : f.variables()) {
      factorsOf.get(v).add(f);
    }
  }

  /**
   * Compiles a model, which stays as it is.
   *
   * @param budget the most table entries that may be made
   * @return the circuit, or why there is none
   */
  public static Compilation compile(Model model, double budget) {
    EliminationOrder order = EliminationOrder.best(model);
    if (order.size() > budget) {
      return new Compilation.OverBudget(order.size(), budget);
    }
    return compile(model, order);
  }

  /**
   * Compiles what evidence leaves of a model: for a model that is too wide as a whole. The
   * variables are numbered as before; those that can be observed in the model can be asked for, and
   * further evidence about them can be entered. The evidence given here is in the circuit for good.
   *
   * @param likelihoods for each variable with evidence P(evidence | state) up to a factor
   * @param budget the most table entries that may be made
   */
  public static Compilation compilePerCase(
      Model model, Map<Integer, double[]> likelihoods, double budget) {
    Set<Integer> asked = new LinkedHashSet<>();
    for (int v = 0; v < model.variables(); v++) {
      if (model.isObservable(v)) {
        asked.add(v);
      }
    }
    return Reduction.of(model, likelihoods, asked)
        .map(left -> compile(left, budget))
        .orElseGet(Compilation.Impossible::new);
  }

  /**
   * A circuit that takes weights and is 1: to collect evidence about a model that is not compiled.
   */
  public static Circuit weightsOnly(Model model) {
    Expressions none = new Expressions();
    return Circuit.of(indicators(model), none, none.one, new double[0]);
  }

  private static Indicators indicators(Model model) {
    int[] states = new int[model.variables()];
    Arrays.setAll(states, model::states);
    return Indicators.of(states, model::isObservable);
  }

  /** Compiles a model in an order, whatever its size. */
  static Circuit compile(Model model, EliminationOrder order) {
    return new CircuitCompiler(model).run(order.order());
  }

  private Circuit run(int[] order) {
    for (int v : order) {
      eliminate(v);
    }
    return Circuit.of(indicators(model), expressions, root, model.parameterValues());
  }

  private void eliminate(int gone) {
    List<Model.Factor> with = new ArrayList<>();
    for (Model.Factor f : factorsOf.get(gone)) {
      if (used.add(f)) {
        with.add(f);
      }
    }
    if (with.isEmpty() && !model.isObservable(gone)) {
      return;
    }
    if (model.isObservable(gone)) {
      int[] indicators = new int[model.states(gone)];
      Arrays.setAll(indicators, s -> expressions.indicator(gone, s));
      with.add(new Model.Factor(new int[] {gone}, indicators));
    }
    while (with.size() > 2) {
      multiplyCheapest(with);
    }
    add(combine(with, gone));
  }

  /** Multiplies the two factors whose product is smallest, so that little is multiplied often. */
  private void multiplyCheapest(List<Model.Factor> with) {
    int first = 0;
    int second = 1;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < with.size(); i++) {
      for (int j = i + 1; j < with.size(); j++) {
        double size = 1;
        for (int v : scope(List.of(with.get(i), with.get(j)), NONE)) {
          size *= model.states(v);
        }
        if (size < least) {
          least = size;
          first = i;
          second = j;
        }
      }
    }
    Model.Factor b = with.remove(second);
    Model.Factor a = with.remove(first);
    with.add(combine(List.of(a, b), NONE));
  }

  private static int[] scope(List<Model.Factor> factors, int without) {
    int[] scope = new int[16];
    int n = 0;
    for (Model.Factor f : factors) {
      for (int v : f.variables()) {
        if (v != without && indexOf(scope, n, v) < 0) {
          if (n == scope.length) {
            scope = Arrays.copyOf(scope, n * 2);
          }
          scope[n++] = v;
        }
      }
    }
    return Arrays.copyOf(scope, n);
  }

  /** The product of factors, summed over a variable ({@link #NONE}: over none). */
  private Model.Factor combine(List<Model.Factor> with, int gone) {
    int[] variables = scope(with, gone);
    int size = 1;
    for (int v : variables) {
      size *= model.states(v);
    }
    int[][] strides = new int[with.size()][variables.length];
    int[] ownStrides = new int[with.size()];
    for (int f = 0; f < with.size(); f++) {
      int stride = 1;
      int[] of = with.get(f).variables();
      for (int i = of.length - 1; i >= 0; i--) {
        if (of[i] == gone) {
          ownStrides[f] = stride;
        } else {
          strides[f][indexOf(variables, variables.length, of[i])] = stride;
        }
        stride *= model.states(of[i]);
      }
    }
    int[] entries = new int[size];
    int[] at = new int[variables.length];
    int[] offsets = new int[with.size()];
    int states = gone == NONE ? 1 : model.states(gone);
    for (int row = 0; row < size; row++) {
      entries[row] = sumOut(states, with, ownStrides, offsets);
      for (int i = variables.length - 1; i >= 0; i--) {
        boolean wraps = ++at[i] == model.states(variables[i]);
        int step = wraps ? -(at[i] - 1) : 1;
        for (int f = 0; f < offsets.length; f++) {
          offsets[f] += step * strides[f][i];
        }
        if (!wraps) {
          break;
        }
        at[i] = 0;
      }
    }
    return new Model.Factor(variables, entries);
  }

  private int sumOut(int states, List<Model.Factor> with, int[] ownStrides, int[] offsets) {
    int total = expressions.zero;
    for (int s = 0; s < states; s++) {
      int term = expressions.one;
      for (int f = 0; f < offsets.length && term != expressions.zero; f++) {
        term = expressions.product(term, with.get(f).entries()[offsets[f] + s * ownStrides[f]]);
      }
      total = expressions.sum(total, term);
    }
    return total;
  }

  private static int indexOf(int[] array, int length, int value) {
    for (int i = 0; i < length; i++) {
      if (array[i] == value) {
        return i;
      }
    }
    return -1;
  }
}
