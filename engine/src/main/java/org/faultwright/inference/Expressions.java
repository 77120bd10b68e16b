package org.faultwright.inference;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

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

  private byte[] kinds = new byte[256];
  private int[] lefts = new int[256];
  private int[] rights = new int[256];
  private double[] values = new double[256];
  private int size;
  private final Map<Double, Integer> constants = new HashMap<>();
  private final Map<Long, Integer> operations = new HashMap<>();
  private final Map<Integer, Integer> parameters = new HashMap<>();
  private final Map<Long, Integer> indicators = new HashMap<>();

  final int zero = constant(0);
  final int one = constant(1);

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

  double value(int node) {
    return values[node];
  }

  int constant(double value) {
    return constants.computeIfAbsent(value, v -> add(CONSTANT, 0, 0, v));
  }

  int parameter(int number) {
    return parameters.computeIfAbsent(number, n -> add(PARAMETER, n, 0, 0));
  }

  int indicator(int variable, int state) {
    return indicators.computeIfAbsent(
        ((long) variable << 32) | state, k -> add(EVIDENCE, variable, state, 0));
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
      return constant(values[a] * values[b]);
    }
    return operation(PRODUCT, a, b);
  }

  int sum(int a, int b) {
    if (a == zero) {
      return b;
    }
    if (b == zero) {
      return a;
    }
    if (kinds[a] == CONSTANT && kinds[b] == CONSTANT) {
      return constant(values[a] + values[b]);
    }
    return operation(SUM, a, b);
  }

  private int operation(byte kind, int a, int b) {
    int low = Math.min(a, b);
    int high = Math.max(a, b);
    long key = ((long) low << 32 | high) << 1 | (kind == SUM ? 1 : 0);
    Integer known = operations.get(key);
    if (known != null) {
      return known;
    }
    int node = add(kind, low, high, 0);
    operations.put(key, node);
    return node;
  }

  private int add(byte kind, int left, int right, double value) {
    if (size == kinds.length) {
      kinds = Arrays.copyOf(kinds, size * 2);
      lefts = Arrays.copyOf(lefts, size * 2);
      rights = Arrays.copyOf(rights, size * 2);
      values = Arrays.copyOf(values, size * 2);
    }
    kinds[size] = kind;
    lefts[size] = left;
    rights[size] = right;
    values[size] = value;
    return size++;
  }
}
