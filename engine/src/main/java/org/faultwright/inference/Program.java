package org.faultwright.inference;

import java.util.Arrays;
import java.util.BitSet;

/**
 * A graph laid out for a processor: cells of numbers, filled one after another. A product that only
 * one sum uses becomes part of that sum, and what is of one kind stands together, so that there is
 * hardly a branch to predict.
 */
final class Program {

  /** a b. */
  private static final int PRODUCT = 0;

  /** a + b. */
  private static final int SUM = 1;

  /** a b + c d. */
  private static final int TWO_PRODUCTS = 2;

  /** a b + c. */
  private static final int PRODUCT_AND_TERM = 3;

  private static final int KINDS = 4;
  private static final int[] OPERANDS = {2, 2, 4, 3};

  /** The first cell that is filled. */
  final int first;

  /** Where the cells end. */
  final int end;

  private final int[] kinds;
  private final int[] ends;
  private final int[] operands;

  private Program(int first, int end, int[] kinds, int[] ends, int[] operands) {
    this.first = first;
    this.end = end;
    this.kinds = kinds;
    this.ends = ends;
    this.operands = operands;
  }

  /**
   * Lays out what some nodes depend on.
   *
   * @param cells for each node its cell; filled in here for the operations that get one, the
   *     leaves' are given
   * @param first the first free cell
   * @param wanted nodes whose values are wanted; -1 is skipped
   */
  static Program of(Graph graph, int[] cells, int first, int[] wanted) {
    return new Layout(graph, cells, first).lay(wanted);
  }

  /** Fills all cells. */
  void run(double[] w) {
    int cell = first;
    int at = 0;
    for (int i = 0; i < kinds.length; i++) {
      int to = ends[i];
      switch (kinds[i]) {
        case PRODUCT -> products(w, operands, at, cell, to);
        case SUM -> sums(w, operands, at, cell, to);
        case TWO_PRODUCTS -> twoProducts(w, operands, at, cell, to);
        default -> productsAndTerms(w, operands, at, cell, to);
      }
      at += (to - cell) * OPERANDS[kinds[i]];
      cell = to;
    }
  }

  private static void products(double[] w, int[] o, int at, int from, int to) {
    for (int c = from; c < to; c++, at += 2) {
      w[c] = w[o[at]] * w[o[at + 1]];
    }
  }

  private static void sums(double[] w, int[] o, int at, int from, int to) {
    for (int c = from; c < to; c++, at += 2) {
      w[c] = w[o[at]] + w[o[at + 1]];
    }
  }

  private static void twoProducts(double[] w, int[] o, int at, int from, int to) {
    for (int c = from; c < to; c++, at += 4) {
      w[c] = w[o[at]] * w[o[at + 1]] + w[o[at + 2]] * w[o[at + 3]];
    }
  }

  private static void productsAndTerms(double[] w, int[] o, int at, int from, int to) {
    for (int c = from; c < to; c++, at += 3) {
      w[c] = w[o[at]] * w[o[at + 1]] + w[o[at + 2]];
    }
  }

  /** Fills some cells. */
  void run(double[] w, BitSet some) {
    int cell = first;
    int at = 0;
    for (int i = 0; i < kinds.length; i++) {
      int n = OPERANDS[kinds[i]];
      for (int c = some.nextSetBit(cell); c >= 0 && c < ends[i]; c = some.nextSetBit(c + 1)) {
        fill(w, kinds[i], at + (c - cell) * n, c);
      }
      at += (ends[i] - cell) * n;
      cell = ends[i];
    }
  }

  private void fill(double[] w, int kind, int at, int c) {
    int[] o = operands;
    double head = kind == SUM ? w[o[at]] + w[o[at + 1]] : w[o[at]] * w[o[at + 1]];
    if (kind == TWO_PRODUCTS) {
      head += w[o[at + 2]] * w[o[at + 3]];
    } else if (kind == PRODUCT_AND_TERM) {
      head += w[o[at + 2]];
    }
    w[c] = head;
  }

  /** Fills all rows: one lane is one evaluation. */
  void run(double[][] w, int lanes) {
    int at = 0;
    int[] o = operands;
    int c = first;
    for (int i = 0; i < kinds.length; i++) {
      int kind = kinds[i];
      int n = OPERANDS[kind];
      for (; c < ends[i]; c++, at += n) {
        double[] to = w[c];
        double[] a = w[o[at]];
        double[] b = w[o[at + 1]];
        switch (kind) {
          case PRODUCT -> product(to, a, b, lanes);
          case SUM -> sum(to, a, b, lanes);
          case TWO_PRODUCTS -> twoProducts(to, a, b, w[o[at + 2]], w[o[at + 3]], lanes);
          default -> productAndTerm(to, a, b, w[o[at + 2]], lanes);
        }
      }
    }
  }

  private static void product(double[] to, double[] a, double[] b, int lanes) {
    for (int l = 0; l < lanes; l++) {
      to[l] = a[l] * b[l];
    }
  }

  private static void sum(double[] to, double[] a, double[] b, int lanes) {
    for (int l = 0; l < lanes; l++) {
      to[l] = a[l] + b[l];
    }
  }

  private static void twoProducts(
      double[] to, double[] a, double[] b, double[] c, double[] d, int lanes) {
    for (int l = 0; l < lanes; l++) {
      to[l] = a[l] * b[l] + c[l] * d[l];
    }
  }

  private static void productAndTerm(double[] to, double[] a, double[] b, double[] c, int lanes) {
    for (int l = 0; l < lanes; l++) {
      to[l] = a[l] * b[l] + c[l];
    }
  }

  /** Fills all cells of numbers that carry an exponent of their own. */
  void run(ScaledCells w) {
    int cell = first;
    int at = 0;
    for (int i = 0; i < kinds.length; i++) {
      int n = OPERANDS[kinds[i]];
      for (int c = cell; c < ends[i]; c++, at += n) {
        if (kinds[i] == SUM) {
          w.copy(c, operands[at]);
          w.add(c, operands[at + 1]);
          continue;
        }
        w.product(c, operands[at], operands[at + 1]);
        if (kinds[i] == TWO_PRODUCTS) {
          w.addProduct(c, operands[at + 2], operands[at + 3]);
        } else if (kinds[i] == PRODUCT_AND_TERM) {
          w.add(c, operands[at + 2]);
        }
      }
      cell = ends[i];
    }
  }

  /** The cells that depend on one of the given ones. */
  BitSet above(int from, int to) {
    BitSet reached = new BitSet(end);
    reached.set(from, to);
    int at = 0;
    int c = first;
    for (int i = 0; i < kinds.length; i++) {
      int n = OPERANDS[kinds[i]];
      for (; c < ends[i]; c++, at += n) {
        for (int k = 0; k < n; k++) {
          if (reached.get(operands[at + k])) {
            reached.set(c);
            break;
          }
        }
      }
    }
    reached.clear(from, to);
    return reached;
  }

  /** Puts operations into an order in which few changes of kind are needed. */
  private static final class Layout {

    private final Graph graph;
    private final int[] cells;
    private final int first;
    private final int[] uses;
    private final boolean[] absorbed;

    Layout(Graph graph, int[] cells, int first) {
      this.graph = graph;
      this.cells = cells;
      this.first = first;
      this.uses = new int[graph.nodes()];
      this.absorbed = new boolean[graph.nodes()];
    }

    Program lay(int[] wanted) {
      int leaves = graph.leaves;
      int n = graph.operations();
      for (int w : wanted) {
        if (w >= leaves) {
          // a value that is wanted must have a cell of its own
          uses[w] += 2;
        }
      }
      int live = 0;
      for (int i = n - 1; i >= 0; i--) {
        if (uses[leaves + i] > 0) {
          uses[graph.left[i]]++;
          uses[graph.right[i]]++;
          live++;
        }
      }
      int[] kind = new int[n];
      for (int i = 0; i < n; i++) {
        if (uses[leaves + i] > 0) {
          kind[i] = kind(i);
        }
      }
      for (int i = 0; i < n; i++) {
        if (absorbed[leaves + i]) {
          live--;
        }
      }
      return schedule(kind, live);
    }

    private int kind(int i) {
      if (!graph.isSum[i]) {
        return PRODUCT;
      }
      boolean a = absorbs(graph.left[i]);
      boolean b = absorbs(graph.right[i]);
      if (a) {
        absorbed[graph.left[i]] = true;
      }
      if (b) {
        absorbed[graph.right[i]] = true;
      }
      return a && b ? TWO_PRODUCTS : a || b ? PRODUCT_AND_TERM : SUM;
    }

    private boolean absorbs(int node) {
      int leaves = graph.leaves;
      return node >= leaves && !graph.isSum[node - leaves] && uses[node] == 1;
    }

    /** The operands of an operation, those of what it absorbs in their place; returns how many. */
    private int operandsOf(int i, int[] into) {
      int a = graph.left[i];
      int b = graph.right[i];
      if (absorbed[b] && !absorbed[a]) {
        int swap = a;
        a = b;
        b = swap;
      }
      int n = 0;
      for (int node : new int[] {a, b}) {
        if (absorbed[node]) {
          into[n++] = graph.left[node - graph.leaves];
          into[n++] = graph.right[node - graph.leaves];
        } else {
          into[n++] = node;
        }
      }
      return n;
    }

    private Program schedule(int[] kind, int live) {
      int leaves = graph.leaves;
      int n = graph.operations();
      int[] waits = new int[n];
      int[] usersFrom = new int[n + 1];
      int[] of = new int[4];
      for (int i = 0; i < n; i++) {
        if (isPlaced(i)) {
          int count = operandsOf(i, of);
          for (int k = 0; k < count; k++) {
            if (of[k] >= leaves) {
              usersFrom[of[k] - leaves + 1]++;
              waits[i]++;
            }
          }
        }
      }
      for (int i = 0; i < n; i++) {
        usersFrom[i + 1] += usersFrom[i];
      }
      int[] users = new int[usersFrom[n]];
      int[] fill = Arrays.copyOf(usersFrom, n);
      int[][] ready = new int[KINDS][live];
      int[] head = new int[KINDS];
      int[] tail = new int[KINDS];
      for (int i = 0; i < n; i++) {
        if (isPlaced(i)) {
          int count = operandsOf(i, of);
          for (int k = 0; k < count; k++) {
            if (of[k] >= leaves) {
              users[fill[of[k] - leaves]++] = i;
            }
          }
          if (waits[i] == 0) {
            ready[kind[i]][tail[kind[i]]++] = i;
          }
        }
      }
      int[] kinds = new int[16];
      int[] ends = new int[16];
      int[] operands = new int[live * 4];
      int segments = 0;
      int at = 0;
      int cell = first;
      while (cell < first + live) {
        int next = 0;
        for (int k = 1; k < KINDS; k++) {
          if (tail[k] - head[k] > tail[next] - head[next]) {
            next = k;
          }
        }
        while (head[next] < tail[next]) {
          int i = ready[next][head[next]++];
          cells[leaves + i] = cell++;
          int count = operandsOf(i, of);
          for (int k = 0; k < count; k++) {
            operands[at++] = cells[of[k]];
          }
          for (int u = usersFrom[i]; u < usersFrom[i + 1]; u++) {
            int user = users[u];
            if (--waits[user] == 0) {
              ready[kind[user]][tail[kind[user]]++] = user;
            }
          }
        }
        if (segments == kinds.length) {
          kinds = Arrays.copyOf(kinds, segments * 2);
          ends = Arrays.copyOf(ends, segments * 2);
        }
        kinds[segments] = next;
        ends[segments++] = cell;
      }
      return new Program(
          first,
          cell,
          Arrays.copyOf(kinds, segments),
          Arrays.copyOf(ends, segments),
          Arrays.copyOf(operands, at));
    }

    private boolean isPlaced(int i) {
      return uses[graph.leaves + i] > 0 && !absorbed[graph.leaves + i];
    }
  }
}
