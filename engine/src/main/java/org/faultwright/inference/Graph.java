package org.faultwright.inference;

import java.util.Arrays;

/**
 * Sums and products of two operands over numbered leaves, operands first. Node 0 up to {@code
 * leaves - 1} are leaves; operation {@code i} is node {@code leaves + i}.
 */
final class Graph {

  final int leaves;
  private int operations;
  boolean[] isSum;
  int[] left;
  int[] right;

  Graph(int leaves, int expected) {
    this.leaves = leaves;
    isSum = new boolean[expected];
    left = new int[expected];
    right = new int[expected];
  }

  int operations() {
    return operations;
  }

  int nodes() {
    return leaves + operations;
  }

  int sum(int a, int b) {
    return add(true, a, b);
  }

  int product(int a, int b) {
    return add(false, a, b);
  }

  private int add(boolean sum, int a, int b) {
    if (operations == left.length) {
      int more = Math.max(16, operations * 2);
      isSum = Arrays.copyOf(isSum, more);
      left = Arrays.copyOf(left, more);
      right = Arrays.copyOf(right, more);
    }
    isSum[operations] = sum;
    left[operations] = a;
    right[operations] = b;
    return leaves + operations++;
  }

  /**
   * The derivatives of a node by leaves, as a graph whose leaves are the nodes of this one. One
   * more leaf, the last, is the number 1. Only what the derivatives asked for depend on is in it.
   *
   * @param root the node
   * @param asked for each leaf whether its derivative is wanted
   * @param derivatives filled in: for each asked leaf its derivative's node; -1 where the root does
   *     not depend on it
   * @see "A. Darwiche, A differential approach to inference in Bayesian networks, Journal of the
   *     ACM 50(3), 2003, section 5"
   */
  Graph downward(int root, boolean[] asked, int[] derivatives) {
    boolean[] leads = Arrays.copyOf(asked, nodes());
    for (int i = 0; i < operations; i++) {
      leads[leaves + i] = leads[left[i]] || leads[right[i]];
    }
    Graph down = new Graph(nodes() + 1, operations * 2);
    int one = nodes();
    int[] of = new int[nodes()];
    Arrays.fill(of, -1);
    of[root] = one;
    for (int i = operations - 1; i >= 0; i--) {
      int up = of[leaves + i];
      if (up < 0 || !leads[leaves + i]) {
        continue;
      }
      int a = left[i];
      int b = right[i];
      if (leads[a]) {
        down.accumulate(of, a, up, isSum[i] ? one : b, one);
      }
      if (leads[b]) {
        down.accumulate(of, b, up, isSum[i] ? one : a, one);
      }
    }
    System.arraycopy(of, 0, derivatives, 0, leaves);
    return down;
  }

  private void accumulate(int[] of, int node, int up, int factor, int one) {
    int term = factor == one ? up : up == one ? factor : product(up, factor);
    of[node] = of[node] < 0 ? term : sum(of[node], term);
  }
}
