package org.faultwright.inference;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What evidence leaves of a model. Variables that tell nothing of what is known or asked are left
 * out; states that the evidence rules out are followed through the tables, so that a variable with
 * one state left cuts the tables it stands in. A negative finding of a noisy any thereby becomes a
 * factor of each of its inputs alone, and only the positive ones connect them. Nothing is ever
 * subtracted, so that no digits are lost however many findings are positive.
 *
 * @see "D. Heckerman, A tractable inference algorithm for diagnosing multiple diseases, UAI 1989,
 *     where negative findings are absorbed so and positive ones by inclusion and exclusion"
 */
final class Reduction {

  /** A row that sums to 1 within this is taken for a conditional distribution. */
  private static final double ROUNDING = 1e-12;

  private final Model model;
  private final Map<Integer, double[]> likelihoods;
  private final Set<Integer> asked;
  private final List<List<Integer>> factorsOf = new ArrayList<>();
  private final boolean[] dropped;
  private final boolean[][] possible;
  private final int[] left;

  private Reduction(Model model, Map<Integer, double[]> likelihoods, Set<Integer> asked) {
    this.model = model;
    this.likelihoods = likelihoods;
    this.asked = asked;
    dropped = new boolean[model.factors.size()];
    possible = new boolean[model.variables()][];
    left = new int[model.variables()];
    for (int v = 0; v < possible.length; v++) {
      factorsOf.add(new ArrayList<>());
      possible[v] = new boolean[model.states(v)];
      Arrays.fill(possible[v], true);
      left[v] = possible[v].length;
    }
    for (int f = 0; f < dropped.length; f++) {
      for (int v : model.factors.get(f).variables()) {
        factorsOf.get(v).add(f);
      }
    }
  }

  /**
   * The model with the evidence in it, its variables numbered as before, its parameters as they
   * stand; empty when the evidence is found to be impossible. What is left of it may still turn out
   * to be impossible.
   *
   * @param likelihoods for each variable with evidence P(evidence | state) up to a factor
   * @param asked the variables that can be observed in what is left
   */
  static Optional<Model> of(Model model, Map<Integer, double[]> likelihoods, Set<Integer> asked) {
    Reduction reduction = new Reduction(model, likelihoods, asked);
    reduction.leaveOut();
    return reduction.follow() ? Optional.of(reduction.rest()) : Optional.empty();
  }

  /** Leaves out, again and again, what has no evidence, is not asked and has no children. */
  private void leaveOut() {
    int[] in = new int[left.length];
    Deque<Integer> open = new ArrayDeque<>();
    for (int v = 0; v < in.length; v++) {
      in[v] = factorsOf.get(v).size();
      open.add(v);
    }
    while (!open.isEmpty()) {
      int v = open.poll();
      if (in[v] != 1 || likelihoods.containsKey(v) || asked.contains(v)) {
        continue;
      }
      for (int f : factorsOf.get(v)) {
        if (!dropped[f] && isDistributionOf(model.factors.get(f), v)) {
          dropped[f] = true;
          for (int u : model.factors.get(f).variables()) {
            in[u]--;
            open.add(u);
          }
        }
      }
    }
  }

  private boolean isDistributionOf(Model.Factor f, int v) {
    if (f.variables()[f.variables().length - 1] != v) {
      return false;
    }
    int states = left[v];
    for (int row = 0; row < f.entries().length; row += states) {
      double sum = 0;
      for (int s = row; s < row + states; s++) {
        sum += model.value(f.entries()[s]);
      }
      if (Math.abs(sum - 1) > ROUNDING) {
        return false;
      }
    }
    return true;
  }

  /** Follows what is ruled out through the tables; false when nothing is left of a variable. */
  private boolean follow() {
    Deque<Integer> open = new ArrayDeque<>();
    boolean[] queued = new boolean[dropped.length];
    for (int f = 0; f < queued.length; f++) {
      if (!dropped[f]) {
        open.add(f);
        queued[f] = true;
      }
    }
    for (Map.Entry<Integer, double[]> e : likelihoods.entrySet()) {
      for (int s = 0; s < e.getValue().length; s++) {
        if (e.getValue()[s] == 0) {
          ruleOut(e.getKey(), s);
        }
      }
      if (left[e.getKey()] == 0) {
        return false;
      }
    }
    while (!open.isEmpty()) {
      int f = open.poll();
      queued[f] = false;
      int[] variables = model.factors.get(f).variables();
      boolean[][] supported = supported(model.factors.get(f));
      for (int i = 0; i < variables.length; i++) {
        int v = variables[i];
        boolean less = false;
        for (int s = 0; s < possible[v].length; s++) {
          if (possible[v][s] && !supported[i][s]) {
            ruleOut(v, s);
            less = true;
          }
        }
        if (left[v] == 0) {
          return false;
        }
        for (int g : less ? factorsOf.get(v) : List.<Integer>of()) {
          if (!dropped[g] && !queued[g]) {
            queued[g] = true;
            open.add(g);
          }
        }
      }
    }
    return true;
  }

  private void ruleOut(int v, int s) {
    if (possible[v][s]) {
      possible[v][s] = false;
      left[v]--;
    }
  }

  /** For each variable of a factor, which of its states occur in an entry that is not 0. */
  private boolean[][] supported(Model.Factor f) {
    int[] variables = f.variables();
    boolean[][] supported = new boolean[variables.length][];
    for (int i = 0; i < variables.length; i++) {
      supported[i] = new boolean[possible[variables[i]].length];
    }
    int[] at = new int[variables.length];
    for (int e : f.entries()) {
      boolean counts = model.value(e) != 0;
      for (int i = 0; counts && i < at.length; i++) {
        counts = possible[variables[i]][at[i]];
      }
      for (int i = 0; counts && i < at.length; i++) {
        supported[i][at[i]] = true;
      }
      advance(at, variables);
    }
    return supported;
  }

  private void advance(int[] at, int[] variables) {
    for (int i = at.length - 1; i >= 0 && ++at[i] == possible[variables[i]].length; i--) {
      at[i] = 0;
    }
  }

  private Model rest() {
    Model rest = model.bare(asked);
    boolean[] placed = new boolean[left.length];
    for (int f = 0; f < dropped.length; f++) {
      if (!dropped[f]) {
        cut(model.factors.get(f), rest, placed);
      }
    }
    for (int v = 0; v < left.length; v++) {
      double[] likelihood = likelihoods.get(v);
      if (likelihood != null || placed[v] && left[v] < possible[v].length) {
        int[] entries = new int[possible[v].length];
        for (int s = 0; s < entries.length; s++) {
          double weight = likelihood == null ? 1 : likelihood[s];
          entries[s] = rest.constant(possible[v][s] ? weight : 0);
        }
        rest.factor(new int[] {v}, entries);
      }
    }
    return rest;
  }

  /** A factor without the variables of which one state is left. */
  private void cut(Model.Factor f, Model rest, boolean[] placed) {
    int[] variables = f.variables();
    int[] open =
        Arrays.stream(variables).peek(v -> placed[v] = true).filter(v -> left[v] > 1).toArray();
    int size = 1;
    for (int v : open) {
      size *= possible[v].length;
    }
    int[] entries = new int[size];
    int[] at = new int[variables.length];
    int next = 0;
    for (int e : f.entries()) {
      boolean kept = true;
      for (int i = 0; i < at.length; i++) {
        kept &= left[variables[i]] > 1 || possible[variables[i]][at[i]];
      }
      if (kept) {
        entries[next++] = rest.constant(model.value(e));
      }
      advance(at, variables);
    }
    rest.factor(open, entries);
  }
}
