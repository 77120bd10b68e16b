package org.faultwright.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.SplittableRandom;

/**
 * An order of elimination. Two greedy rules are tried and the cheaper order wins: min-fill (next is
 * the variable whose elimination adds the fewest edges among its neighbours) and min-weight (next
 * is the variable with the smallest table). Ties of either rule go to the other, then once to the
 * variable added last, which is nearest to the leaves, and once to the one added first: of two
 * packs each was served better by the other, with half the operations. Where that leaves a wide
 * order, both rules are tried again with ties drawn: on the packs of one family used as one this
 * found orders of less than half the size.
 *
 * @param order the variables in the order in which they are summed out; those of no factor first
 * @param size predicted cost: the number of entries of all tables made on the way; where it exceeds
 *     {@link #HOPELESS}, what had been added up when it did
 * @see "D. Koller, N. Friedman, Probabilistic Graphical Models, 2009, section 9.4.3.2"
 */
record EliminationOrder(int[] order, double size) {

  /** Table entries that no machine has room for; an order is not followed any further. */
  static final double HOPELESS = 1e12;

  /** Table entries above which it pays to look for a cheaper order. */
  private static final double WIDE = 1e6;

  /** How many more orders are tried then. */
  private static final int MORE = 24;

  private static final long SEED = 1;

  static EliminationOrder best(Model model) {
    Comparator<Candidate> lastAdded = Comparator.comparingInt(c -> -c.variable);
    EliminationOrder best = new Greedy(model, true, lastAdded).run(HOPELESS);
    best = cheaper(best, new Greedy(model, false, lastAdded).run(best.size));
    best = cheaper(best, new Greedy(model, true, lastAdded.reversed()).run(best.size));
    best = cheaper(best, new Greedy(model, false, lastAdded.reversed()).run(best.size));
    SplittableRandom random = new SplittableRandom(SEED);
    for (int more = 0; more < MORE && best.size > WIDE; more++) {
      double[] place = random.doubles(model.variables()).toArray();
      Comparator<Candidate> drawn = Comparator.comparingDouble(c -> place[c.variable]);
      best = cheaper(best, new Greedy(model, more % 2 == 0, drawn).run(best.size));
    }
    return best;
  }

  private static EliminationOrder cheaper(EliminationOrder one, EliminationOrder other) {
    return other.size < one.size ? other : one;
  }

  private record Candidate(int variable, long fill, double table) {}

  private static final class Greedy {

    private static final Comparator<Candidate> FILL = Comparator.comparingLong(Candidate::fill);
    private static final Comparator<Candidate> TABLE = Comparator.comparingDouble(Candidate::table);
    private final Model model;
    private final int[][] around;
    private final int[] degree;
    private final boolean[] left;
    private final long[] fill;
    private final double[] table;
    private final int[] mark;
    private int marked;
    private final PriorityQueue<Candidate> queue;

    Greedy(Model model, boolean fillFirst, Comparator<Candidate> ties) {
      int n = model.variables();
      this.model = model;
      around = new int[n][];
      degree = new int[n];
      left = new boolean[n];
      fill = new long[n];
      table = new double[n];
      mark = new int[n];
      queue =
          new PriorityQueue<>(
              (fillFirst ? FILL.thenComparing(TABLE) : TABLE.thenComparing(FILL))
                  .thenComparing(ties));
      List<List<Model.Factor>> factors = new ArrayList<>();
      for (int v = 0; v < n; v++) {
        factors.add(List.of());
      }
      for (Model.Factor f : model.factors) {
        for (int v : f.variables()) {
          if (!left[v]) {
            left[v] = true;
            factors.set(v, new ArrayList<>());
          }
          factors.get(v).add(f);
        }
      }
      for (int v = 0; v < n; v++) {
        around[v] = new int[factors.get(v).size() * 2];
        marked++;
        mark[v] = marked;
        for (Model.Factor f : factors.get(v)) {
          for (int u : f.variables()) {
            if (mark[u] != marked) {
              mark[u] = marked;
              connect(v, u);
            }
          }
        }
      }
      for (int v = 0; v < n; v++) {
        if (left[v]) {
          weigh(v);
        }
      }
    }

    private void connect(int v, int u) {
      if (degree[v] == around[v].length) {
        around[v] = Arrays.copyOf(around[v], 4 + 2 * degree[v]);
      }
      around[v][degree[v]++] = u;
    }

    private void markAround(int v) {
      marked++;
      for (int i = 0; i < degree[v]; i++) {
        mark[around[v][i]] = marked;
      }
    }

    /** Works out the cost of a variable afresh. */
    private void weigh(int v) {
      markAround(v);
      long present = 0;
      double entries = model.states(v);
      for (int i = 0; i < degree[v]; i++) {
        int a = around[v][i];
        entries *= model.states(a);
        for (int j = 0; j < degree[a]; j++) {
          present += mark[around[a][j]] == marked ? 1 : 0;
        }
      }
      long d = degree[v];
      fill[v] = (d * (d - 1) - present) / 2;
      table[v] = entries;
      queue.add(new Candidate(v, fill[v], entries));
    }

    /** Orders all variables; gives up where the tables take more than an order that is known. */
    EliminationOrder run(double most) {
      int n = left.length;
      int[] order = new int[n];
      int next = 0;
      for (int v = 0; v < n; v++) {
        if (!left[v]) {
          order[next++] = v;
        }
      }
      double size = 0;
      while (next < n && size <= most) {
        Candidate c = queue.poll();
        int v = c.variable;
        if (left[v] && c.fill == fill[v] && c.table == table[v]) {
          order[next++] = v;
          size += table[v];
          eliminate(v);
        }
      }
      return new EliminationOrder(order, size);
    }

    /** Connects the neighbours of a variable and takes it out. */
    private void eliminate(int gone) {
      left[gone] = false;
      int[] neighbours = Arrays.copyOf(around[gone], degree[gone]);
      for (int a : neighbours) {
        int i = 0;
        while (around[a][i] != gone) {
          i++;
        }
        around[a][i] = around[a][--degree[a]];
      }
      for (int i = 0; i < neighbours.length; i++) {
        int a = neighbours[i];
        markAround(a);
        int before = marked;
        for (int j = i + 1; j < neighbours.length; j++) {
          int b = neighbours[j];
          if (mark[b] != before) {
            lessToFill(b, before);
            connect(a, b);
            connect(b, a);
          }
        }
      }
      for (int a : neighbours) {
        weigh(a);
      }
    }

    /** What is next to both ends of a new edge has one edge less to fill. */
    private void lessToFill(int b, int aroundA) {
      for (int k = 0; k < degree[b]; k++) {
        int c = around[b][k];
        if (mark[c] == aroundA) {
          fill[c]--;
          queue.add(new Candidate(c, fill[c], table[c]));
        }
      }
    }
  }
}
