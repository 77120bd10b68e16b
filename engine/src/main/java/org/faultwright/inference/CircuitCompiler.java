package org.faultwright.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
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

  private final Model model;
  private final Expressions expressions;
  private final List<Model.Factor> live;

  private CircuitCompiler(Model model) {
    this.model = model;
    this.expressions = model.expressions;
    this.live = new ArrayList<>(model.factors);
  }

  /**
   * Compiles a model. The model must not be used afterwards.
   *
   * @param budget the most table entries that may be made
   * @return the circuit, or why there is none
   */
  public static Compilation compile(Model model, double budget) {
    EliminationOrder order = EliminationOrder.best(model);
    if (order.size() > budget) {
      return new Compilation.OverBudget(order.size(), budget);
    }
    return new CircuitCompiler(model).run(order.order());
  }

  private Circuit run(int[] order) {
    for (int v : order) {
      eliminate(v);
    }
    int root = expressions.one;
    for (Model.Factor f : live) {
      root = expressions.product(root, f.entries()[0]);
    }
    return Circuit.of(model, root);
  }

  private void eliminate(int gone) {
    List<Model.Factor> with = new ArrayList<>();
    Set<Integer> scope = new LinkedHashSet<>();
    live.removeIf(
        f -> {
          boolean has = Arrays.stream(f.variables()).anyMatch(v -> v == gone);
          if (has) {
            with.add(f);
            Arrays.stream(f.variables()).forEach(scope::add);
          }
          return has;
        });
    scope.remove(gone);
    int[] variables = scope.stream().mapToInt(Integer::intValue).toArray();
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
          strides[f][indexOf(variables, of[i])] = stride;
        }
        stride *= model.states(of[i]);
      }
    }
    int[] entries = new int[size];
    int[] at = new int[variables.length];
    int[] offsets = new int[with.size()];
    for (int row = 0; row < size; row++) {
      entries[row] = sumOut(gone, with, ownStrides, offsets);
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
    live.add(new Model.Factor(variables, entries));
  }

  private int sumOut(int gone, List<Model.Factor> with, int[] ownStrides, int[] offsets) {
    int total = expressions.zero;
    for (int s = 0; s < model.states(gone); s++) {
      int term = expressions.one;
      for (int f = 0; f < offsets.length && term != expressions.zero; f++) {
        term = expressions.product(term, with.get(f).entries()[offsets[f] + s * ownStrides[f]]);
      }
      if (model.isObservable(gone)) {
        term = expressions.product(term, expressions.indicator(gone, s));
      }
      total = expressions.sum(total, term);
    }
    return total;
  }

  private static int indexOf(int[] array, int value) {
    for (int i = 0; i < array.length; i++) {
      if (array[i] == value) {
        return i;
      }
    }
    throw new AssertionError(value);
  }
}
