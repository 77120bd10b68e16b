package org.faultwright.inference;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * An order of elimination. Two greedy rules are tried and the cheaper order wins: min-fill (next is
 * the variable whose elimination adds the fewest edges among its neighbours) and min-weight (next
 * is the variable with the smallest table). Ties of either rule go to the other, then to the
 * variable added last, since what is added last is nearest to the leaves.
 *
 * @param order the variables in the order in which they are summed out
 * @param size predicted cost: the number of entries of all tables made on the way
 * @see "D. Koller, N. Friedman, Probabilistic Graphical Models, 2009, section 9.4.3.2"
 */
record EliminationOrder(int[] order, double size) {

  static EliminationOrder best(Model model) {
    EliminationOrder fill = greedy(model, true);
    EliminationOrder weight = greedy(model, false);
    return weight.size < fill.size ? weight : fill;
  }

  private static EliminationOrder greedy(Model model, boolean fillFirst) {
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
    double[] table = new double[n];
    for (int v = 0; v < n; v++) {
      table[v] = tableOf(model, neighbours, v);
    }
    for (int i = 0; i < n; i++) {
      int best = -1;
      for (int v = left.nextSetBit(0); v >= 0; v = left.nextSetBit(v + 1)) {
        int byFill = best < 0 ? -1 : Integer.compare(fill[v], fill[best]);
        int byTable = best < 0 ? -1 : Double.compare(table[v], table[best]);
        int first = fillFirst ? byFill : byTable;
        if (first < 0 || first == 0 && (fillFirst ? byTable : byFill) <= 0) {
          best = v;
        }
      }
      order[i] = best;
      size += table[best];
      BitSet changed = eliminate(neighbours, best, left);
      for (int v = changed.nextSetBit(0); v >= 0; v = changed.nextSetBit(v + 1)) {
        fill[v] = fillOf(neighbours, v);
        table[v] = tableOf(model, neighbours, v);
      }
    }
    return new EliminationOrder(order, size);
  }

  /**
   * Connects the neighbours of a variable and takes it out; returns the variables whose
   * surroundings have changed.
   */
  private static BitSet eliminate(List<BitSet> neighbours, int gone, BitSet left) {
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
    return changed;
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
