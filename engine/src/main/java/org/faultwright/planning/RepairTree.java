package org.faultwright.planning;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.faultwright.planning.RepairTable.Spread;

/**
 * What sequences of repairs, each followed by its function tests, lead to from each state that a
 * device may be found in. That does not depend on how likely the states are, on prices or on the
 * bench, so that it is worked out once and kept: the mass that fails on a sequence is then one
 * scalar product with a belief.
 *
 * <p>The states that devices may be found in have places, their rows. A node is a sequence; its
 * columns hold a number for each row, and are filled in where they are asked for. Not thread-safe.
 */
final class RepairTree {

  /** Numbers that may be kept before a fresh tree serves better; some 30 MB. */
  private static final long MOST_KEPT = 3_000_000;

  /** What is left after longer sequences is worked out anew for each sequence that goes on. */
  private static final int LONGEST_KEPT = 4;

  /** States less likely than this, given where the device started, are not followed further. */
  private static final double NEGLIGIBLE = 1e-13;

  final RepairTable table;
  private final Node root = new Node(null, -1, new int[0]);
  private int[] rowOf = new int[64];
  private int[] stateOf = new int[64];
  private int rows;
  private long kept;

  private final List<Spread> rowsOfFuture = new ArrayList<>();

  // Scratch.
  private double[] sums = new double[64];
  private int[] touched = new int[64];

  /** A sequence of repairs. */
  static final class Node {
    private final Node before;
    private final int depth;

    /** The last repair, by its place in the table. */
    private final int repair;

    /** The function tests after it. */
    private final int[] proofs;

    private final List<Node> next = new ArrayList<>();

    /**
     * For each row two numbers: P(all function tests so far have failed), NaN where that is not
     * worked out; P(these function tests are the first to pass, and a function is lost).
     */
    private double[] ends = {};

    /** For each row what is left where all have failed; null: not worked out. */
    private Spread[] left = {};

    private Node(Node before, int repair, int[] proofs) {
      this.before = before;
      this.depth = before == null ? 0 : before.depth + 1;
      this.repair = repair;
      this.proofs = proofs;
    }
  }

  RepairTree(RepairTable table) {
    this.table = table;
    Arrays.fill(rowOf, -1);
  }

  /** The sequence without repairs. */
  Node root() {
    return root;
  }

  /** A sequence with one repair more. */
  Node after(Node before, int repair, int[] proofs) {
    for (Node n : before.next) {
      if (n.repair == repair && Arrays.equals(n.proofs, proofs)) {
        return n;
      }
    }
    Node more = new Node(before, repair, proofs);
    before.next.add(more);
    return more;
  }

  /** Whether so much has been kept that a fresh tree serves better. */
  boolean isFull() {
    return kept > MOST_KEPT;
  }

  // Rows.

  /** The rows that a future of the case model stands for. */
  Spread rowsOf(int future) {
    while (rowsOfFuture.size() <= future) {
      rowsOfFuture.add(null);
    }
    Spread found = rowsOfFuture.get(future);
    if (found == null) {
      Spread states = table.statesOf(future);
      found = new Spread(Arrays.stream(states.states()).map(this::row).toArray(), states.p());
      rowsOfFuture.set(future, found);
    }
    return found;
  }

  int rows() {
    return rows;
  }

  /** 1 where a function is lost to the one who uses the device, else 0. */
  double lost(int row) {
    return table.lost[stateOf[row]];
  }

  /** The mass of a belief with a function lost to the one who uses the device. */
  double lost(Belief belief) {
    double sum = 0;
    for (int i = 0; i < belief.count; i++) {
      sum += belief.mass[i] * lost(belief.rows[i]);
    }
    return sum;
  }

  /** The state that a row stands for. */
  int stateOf(int row) {
    return stateOf[row];
  }

  private int row(int state) {
    if (state >= rowOf.length) {
      int size = rowOf.length;
      rowOf = Arrays.copyOf(rowOf, 2 * state);
      Arrays.fill(rowOf, size, rowOf.length, -1);
    }
    if (rowOf[state] < 0) {
      if (rows == stateOf.length) {
        stateOf = Arrays.copyOf(stateOf, 2 * rows);
      }
      stateOf[rows] = state;
      rowOf[state] = rows++;
    }
    return rowOf[state];
  }

  // Columns.

  /**
   * Where a belief ends after a sequence.
   *
   * @param failed the mass that fails all function tests
   * @param lost the mass that passes the last function tests first, with a function lost
   */
  record Ends(double failed, double lost) {}

  /** Where a belief ends after a sequence. */
  Ends ends(Node node, Belief belief) {
    if (node.ends.length < 2 * rows) {
      grow(node);
    }
    Ends ends = sum(node.ends, belief);
    if (!Double.isNaN(ends.failed)) {
      return ends;
    }
    for (int i = 0; i < belief.count; i++) {
      if (Double.isNaN(node.ends[2 * belief.rows[i]])) {
        carryOut(node, belief.rows[i]);
      }
    }
    return sum(node.ends, belief);
  }

  private static Ends sum(double[] ends, Belief belief) {
    double failed = 0;
    double lost = 0;
    for (int i = 0; i < belief.count; i++) {
      int at = 2 * belief.rows[i];
      failed += belief.mass[i] * ends[at];
      lost += belief.mass[i] * ends[at + 1];
    }
    return new Ends(failed, lost);
  }

  private void grow(Node node) {
    int from = node.ends.length;
    int size = Math.max(2 * from, Math.max(32, 2 * rows));
    node.ends = Arrays.copyOf(node.ends, size);
    Arrays.fill(node.ends, from, size, Double.NaN);
    kept += size - from;
    if (node.depth <= LONGEST_KEPT) {
      node.left = Arrays.copyOf(node.left, size / 2);
    }
  }

  private Spread left(Node node, int row) {
    if (node == root) {
      return new Spread(new int[] {stateOf[row]}, new double[] {1});
    }
    boolean isKept = node.depth <= LONGEST_KEPT && row < node.left.length;
    if (isKept && node.left[row] != null) {
      return node.left[row];
    }
    return carryOut(node, row);
  }

  /** Carries the last repair and its function tests out where all before have failed. */
  private Spread carryOut(Node node, int row) {
    Spread before = left(node.before, row);
    int n = 0;
    for (int i = 0; i < before.states().length; i++) {
      int state = before.states()[i];
      Spread to = table.moves(state, node.repair);
      if (to == RepairTable.STAYS) {
        n = sum(state, before.p()[i], n);
      } else {
        for (int j = 0; j < to.states().length; j++) {
          n = sum(to.states()[j], before.p()[i] * to.p()[j], n);
        }
      }
    }
    double failed = 0;
    double lost = 0;
    int count = 0;
    int[] states = new int[n];
    double[] mass = new double[n];
    for (int i = 0; i < n; i++) {
      int state = touched[i];
      double m = sums[state];
      sums[state] = 0;
      double pPass = 1;
      for (int p : node.proofs) {
        pPass *= 1 - table.pFail(state, p);
      }
      lost += m * pPass * table.lost[state];
      double fails = m * (1 - pPass);
      failed += fails;
      if (fails > NEGLIGIBLE) {
        states[count] = state;
        mass[count++] = fails;
      }
    }
    Spread left = new Spread(Arrays.copyOf(states, count), Arrays.copyOf(mass, count));
    if (2 * row < node.ends.length) {
      node.ends[2 * row] = failed;
      node.ends[2 * row + 1] = lost;
    }
    if (node.depth <= LONGEST_KEPT && row < node.left.length) {
      node.left[row] = left;
      kept += 2 * count;
    }
    return left;
  }

  private int sum(int state, double mass, int n) {
    if (state >= sums.length) {
      sums = Arrays.copyOf(sums, 2 * state);
      touched = Arrays.copyOf(touched, sums.length);
    }
    if (mass == 0) {
      return n;
    }
    if (sums[state] == 0) {
      touched[n++] = state;
    }
    sums[state] += mass;
    return n;
  }

  /** How likely a device is in each state: masses that need not sum to 1. */
  static final class Belief {
    int[] rows = new int[32];
    double[] mass = new double[32];
    int count;
    double total;

    void add(int row, double m) {
      if (count == rows.length) {
        rows = Arrays.copyOf(rows, 2 * count);
        mass = Arrays.copyOf(mass, 2 * count);
      }
      rows[count] = row;
      mass[count++] = m;
      total += m;
    }

    void clear() {
      count = 0;
      total = 0;
    }
  }
}
