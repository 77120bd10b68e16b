package org.faultwright.inference;

import java.util.BitSet;

/**
 * A graph laid out for a processor: cells of numbers, filled one after another. A product that only
 * one sum uses becomes part of that sum, and what is of one kind stands together, so that there is
 * hardly a branch to predict.
 */
final class Program {

  /** a b. */
  static final int PRODUCT = 0;

  /** a + b. */
  static final int SUM = 1;

  /** a b + c d. */
  static final int TWO_PRODUCTS = 2;

  /** a b + c. */
  static final int PRODUCT_AND_TERM = 3;

  static final int KINDS = 4;
  private static final int[] OPERANDS = {2, 2, 4, 3};

  /** The first cell that is filled. */
  final int first;

  /** Where the cells end. */
  final int end;

  private final int[] kinds;
  private final int[] ends;
  private final int[] operands;

  Program(int first, int end, int[] kinds, int[] ends, int[] operands) {
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
    return new ProgramLayout(graph, cells, first).lay(wanted);
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
}
