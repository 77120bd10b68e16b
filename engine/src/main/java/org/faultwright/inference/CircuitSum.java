package org.faultwright.inference;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/**
 * A weighted sum of circuits over the same indicators with the same weights. Equal nodes are
 * shared, so that what does not differ between the circuits is there once.
 */
final class CircuitSum {

  private Circuit first;
  private int indicators;
  private double[] leafValues = new double[64];
  private int leaves;
  private boolean[] isSum = new boolean[256];
  private int[] left = new int[256];
  private int[] right = new int[256];
  private int operations;
  private final Map<Long, Integer> constants = new HashMap<>();
  private final Map<Long, Integer> known = new HashMap<>();
  private int root = Integer.MIN_VALUE;

  /**
   * Adds a circuit.
   *
   * @param weight above 0
   */
  void add(Circuit circuit, double weight) {
    if (first == null) {
      start(circuit);
    }
    int[] place = new int[circuit.leaves + circuit.isSum.length];
    for (int i = 0; i < circuit.leaves; i++) {
      place[i] = i < indicators ? i : constant(circuit.leafValues[i]);
    }
    for (int i = 0; i < circuit.isSum.length; i++) {
      place[circuit.leaves + i] =
          operation(circuit.isSum[i], place[circuit.left[i]], place[circuit.right[i]]);
    }
    int weighed = operation(false, place[circuit.root], constant(weight));
    root = root == Integer.MIN_VALUE ? weighed : operation(true, root, weighed);
  }

  private void start(Circuit circuit) {
    first = circuit;
    for (int v = 0; v < circuit.states.length; v++) {
      if (circuit.firstIndicator[v] >= 0) {
        indicators = Math.max(indicators, circuit.firstIndicator[v] + circuit.states[v]);
      }
    }
    leafValues = Arrays.copyOf(circuit.leafValues, Math.max(64, indicators));
    leaves = indicators;
  }

  /** The sum of what has been added, at least one circuit. */
  Circuit circuit() {
    return new Circuit(
        leaves,
        Arrays.copyOf(isSum, operations),
        laidOut(left),
        laidOut(right),
        laidOut(root),
        Arrays.copyOf(leafValues, leaves),
        new int[0],
        first.firstIndicator,
        first.states);
  }

  private int[] laidOut(int[] operands) {
    int[] out = new int[operations];
    for (int i = 0; i < operations; i++) {
      out[i] = laidOut(operands[i]);
    }
    return out;
  }

  /** While it grows an operation is named by the complement of its number, a leaf by its own. */
  private int laidOut(int node) {
    return node < 0 ? leaves + ~node : node;
  }

  private int constant(double value) {
    return constants.computeIfAbsent(
        Double.doubleToLongBits(value),
        bits -> {
          if (leaves == leafValues.length) {
            leafValues = Arrays.copyOf(leafValues, leaves * 2);
          }
          leafValues[leaves] = value;
          return leaves++;
        });
  }

  private int operation(boolean sum, int a, int b) {
    int low = Math.min(a, b);
    int high = Math.max(a, b);
    long key = ((long) low << 32 | (high & 0xffffffffL)) << 1 | (sum ? 1 : 0);
    Integer shared = known.get(key);
    if (shared != null) {
      return shared;
    }
    if (operations == isSum.length) {
      isSum = Arrays.copyOf(isSum, operations * 2);
      left = Arrays.copyOf(left, operations * 2);
      right = Arrays.copyOf(right, operations * 2);
    }
    isSum[operations] = sum;
    left[operations] = low;
    right[operations] = high;
    known.put(key, ~operations);
    return ~operations++;
  }
}
