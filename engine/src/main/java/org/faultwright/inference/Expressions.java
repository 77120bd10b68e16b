package org.faultwright.inference;

import java.util.Arrays;

/**
 * A growing graph of sums and products over constants, parameters and evidence indicators. Equal
 * nodes are shared, constants are folded, zeros vanish. A node is named by its index; operands
 * always have smaller indices than what is made of them. Not thread-safe.
 */
final class Expressions {

  static final byte CONSTANT = 0;
  static final byte PARAMETER = 1;
  static final byte EVIDENCE = 2;
  static final byte SUM = 3;
  static final byte PRODUCT = 4;

  private byte[] kinds;
  private int[] lefts;
  private int[] rights;
  private int size;

  /** Open addressing: nodes plus one, by a hash of what they are; 0 is free. */
  private int[] table;

  final int zero;
  final int one;

  Expressions() {
    kinds = new byte[256];
    lefts = new int[256];
    rights = new int[256];
    table = new int[512];
    zero = constant(0);
    one = constant(1);
  }

  private Expressions(Expressions of) {
    kinds = of.kinds.clone();
    lefts = of.lefts.clone();
    rights = of.rights.clone();
    table = of.table.clone();
    size = of.size;
    zero = of.zero;
    one = of.one;
  }

  /** A graph with the same nodes, which grows on its own. */
  Expressions copy() {
    return new Expressions(this);
  }

  int size() {
    return size;
  }

  byte kind(int node) {
    return kinds[node];
  }

  /** Left operand; for a parameter its number; for an indicator its variable. */
  int left(int node) {
    return lefts[node];
  }

  /** Right operand; for an indicator its state. */
  int right(int node) {
    return rights[node];
  }

  /** The value of a constant. */
  double value(int node) {
    return Double.longBitsToDouble((long) lefts[node] << 32 | rights[node] & 0xffffffffL);
  }

  int constant(double value) {
    long bits = Double.doubleToLongBits(value + 0.0);
    return node(CONSTANT, (int) (bits >>> 32), (int) bits);
  }

  int parameter(int number) {
    return node(PARAMETER, number, 0);
  }

  int indicator(int variable, int state) {
    return node(EVIDENCE, variable, state);
  }

  int product(int a, int b) {
    if (a == zero || b == zero) {
      return zero;
    }
    if (a == one) {
      return b;
    }
    if (b == one) {
      return a;
    }
    if (kinds[a] == CONSTANT && kinds[b] == CONSTANT) {
      return constant(value(a) * value(b));
    }
    return node(PRODUCT, Math.min(a, b), Math.max(a, b));
  }

  int sum(int a, int b) {
    if (a == zero) {
      return b;
    }
    if (b == zero) {
      return a;
    }
    if (kinds[a] == CONSTANT && kinds[b] == CONSTANT) {
      return constant(value(a) + value(b));
    }
    return node(SUM, Math.min(a, b), Math.max(a, b));
  }

  /** The node that is this, made when there is none yet. */
  private int node(byte kind, int left, int right) {
    int mask = table.length - 1;
    int at = hash(kind, left, right) & mask;
    while (table[at] != 0) {
      int known = table[at] - 1;
      if (kinds[known] == kind && lefts[known] == left && rights[known] == right) {
        return known;
      }
      at = (at + 1) & mask;
    }
    if (size == kinds.length) {
      grow();
      return node(kind, left, right);
    }
    kinds[size] = kind;
    lefts[size] = left;
    rights[size] = right;
    table[at] = ++size;
    return size - 1;
  }

  private void grow() {
    kinds = Arrays.copyOf(kinds, size * 2);
    lefts = Arrays.copyOf(lefts, size * 2);
    rights = Arrays.copyOf(rights, size * 2);
    table = new int[kinds.length * 2];
    int mask = table.length - 1;
    for (int n = 0; n < size; n++) {
      int at = hash(kinds[n], lefts[n], rights[n]) & mask;
      while (table[at] != 0) {
        at = (at + 1) & mask;
      }
      table[at] = n + 1;
    }
  }

  private static int hash(byte kind, int left, int right) {
    long h = (left * 0x9E3779B97F4A7C15L + right) * 0xC2B2AE3D27D4EB4FL + kind;
    h ^= h >>> 29;
    h *= 0x165667B19E3779F9L;
    return (int) (h >>> 32);
  }
}
