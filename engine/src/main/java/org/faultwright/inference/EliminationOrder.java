package org.faultwright.inference;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * An order of elimination by the min-fill rule: next is the variable whose elimination adds the
 * fewest edges among its neighbours; ties go to the smaller table, then to the variable added last,
 * since what is added last is nearest to the leaves.
 *
 * @param order the variables in the order in which they are summed out
 * @param size predicted cost: the number of entries of all tables made on the way
 * @see <a href="https://mitpress.mit.edu/9780262013192/">Koller and Friedman, Probabilistic
 *     Graphical Models, 2009, section 9.4.3.2</a>
 */
record EliminationOrder(int[] order, double size) {

  static EliminationOrder minFill(Model model) {
    int n = model.variables();
    List<BitSet> neighbours = new ArrayList<>();
    for (int v = 0; v < n; v++) {
      neighbours.add(new BitSet(n));
    }
    for (Model.Factor f : model.factors) {
      for (int a : f.variables()) {
        for (int b : f.variables()) {
          if (a != b) {
            neighbours.get(a).set(b);
          }
        }
      }
    }
    int[] fill = new int[n];
    BitSet left = new BitSet(n);
    left.set(0, n);
    for (int v = 0; v < n; v++) {
      fill[v] = fillOf(neighbours, v);
    }
    int[] order = new int[n];
    double size = 0;
    for (int i = 0; i < n; i++) {
      int best = -1;
      double bestTable = 0;
      for (int v = left.nextSetBit(0); v >= 0; v = left.nextSetBit(v + 1)) {
        if (best >= 0 && fill[v] > fill[best]) {
          continue;
        }
        double table = tableOf(model, neighbours, v);
        if (best < 0 || fill[v] < fill[best] || table <= bestTable) {
          best = v;
          bestTable = table;
        }
      }
      order[i] = best;
      size += bestTable;
      eliminate(neighbours, best, left, fill);
    }
    return new EliminationOrder(order, size);
  }

  private static void eliminate(List<BitSet> neighbours, int gone, BitSet left, int[] fill) {
    BitSet around = neighbours.get(gone);
    BitSet changed = (BitSet) around.clone();
    for (int a = around.nextSetBit(0); a >= 0; a = around.nextSetBit(a + 1)) {
      BitSet of = neighbours.get(a);
      BitSet added = (BitSet) around.clone();
      added.andNot(of);
      added.clear(a);
      if (!added.isEmpty()) {
        of.or(around);
        of.clear(a);
        changed.or(of);
      }
      of.clear(gone);
    }
    left.clear(gone);
    changed.and(left);
    for (int v = changed.nextSetBit(0); v >= 0; v = changed.nextSetBit(v + 1)) {
      fill[v] = fillOf(neighbours, v);
    }
  }

  private static int fillOf(List<BitSet> neighbours, int v) {
    BitSet around = neighbours.get(v);
    int missing = 0;
    for (int a = around.nextSetBit(0); a >= 0; a = around.nextSetBit(a + 1)) {
      BitSet lacking = (BitSet) around.clone();
      lacking.andNot(neighbours.get(a));
      missing += lacking.cardinality() - 1;
    }
    return missing / 2;
  }

  private static double tableOf(Model model, List<BitSet> neighbours, int v) {
    double table = model.states(v);
    BitSet around = neighbours.get(v);
    for (int a = around.nextSetBit(0); a >= 0; a = around.nextSetBit(a + 1)) {
      table *= model.states(a);
    }
    return table;
  }
}
