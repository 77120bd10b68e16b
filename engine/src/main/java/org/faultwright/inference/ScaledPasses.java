package org.faultwright.inference;

import java.util.Arrays;

/** Both passes with a binary exponent beside each number, so that nothing underflows. */
final class ScaledPasses {

  private final Circuit circuit;
  private final double[] values;
  private final long[] exponents;
  private final double[] derivatives;
  private final long[] derivativeExponents;

  ScaledPasses(Circuit circuit) {
    this.circuit = circuit;
    int n = circuit.leaves + circuit.isSum.length;
    values = new double[n];
    exponents = new long[n];
    derivatives = new double[n];
    derivativeExponents = new long[n];
  }

  /** ln P(evidence) for the given leaf values. */
  double upward(double[] leafValues) {
    for (int i = 0; i < circuit.leaves; i++) {
      set(values, exponents, i, leafValues[i], 0);
    }
    for (int i = 0; i < circuit.isSum.length; i++) {
      int a = circuit.left[i];
      int b = circuit.right[i];
      int to = circuit.leaves + i;
      if (circuit.isSum[i]) {
        set(values, exponents, to, values[a], exponents[a]);
        add(values, exponents, to, values[b], exponents[b]);
      } else {
        set(values, exponents, to, values[a] * values[b], exponents[a] + exponents[b]);
      }
    }
    int root = circuit.root;
    return values[root] == 0
        ? Double.NEGATIVE_INFINITY
        : Math.log(values[root]) + exponents[root] * Math.log(2);
  }

  void downward() {
    Arrays.fill(derivatives, 0);
    Arrays.fill(derivativeExponents, 0);
    set(derivatives, derivativeExponents, circuit.root, 1, 0);
    for (int i = circuit.isSum.length - 1; i >= 0; i--) {
      int from = circuit.leaves + i;
      double up = derivatives[from];
      if (up == 0) {
        continue;
      }
      long e = derivativeExponents[from];
      int a = circuit.left[i];
      int b = circuit.right[i];
      if (circuit.isSum[i]) {
        add(derivatives, derivativeExponents, a, up, e);
        add(derivatives, derivativeExponents, b, up, e);
      } else {
        add(derivatives, derivativeExponents, a, up * values[b], e + exponents[b]);
        add(derivatives, derivativeExponents, b, up * values[a], e + exponents[a]);
      }
    }
  }

  double share(int leaf) {
    int root = circuit.root;
    return Math.scalb(
        values[leaf] * derivatives[leaf] / values[root],
        (int) clamp(exponents[leaf] + derivativeExponents[leaf] - exponents[root]));
  }

  double derivative(int leaf) {
    int root = circuit.root;
    return Math.scalb(
        derivatives[leaf] / values[root], (int) clamp(derivativeExponents[leaf] - exponents[root]));
  }

  double logDerivative(int leaf) {
    return Math.log(derivatives[leaf]) + derivativeExponents[leaf] * Math.log(2);
  }

  private static long clamp(long exponent) {
    return Math.max(-5000, Math.min(5000, exponent));
  }

  private static void set(double[] m, long[] e, int at, double value, long exponent) {
    if (value == 0) {
      m[at] = 0;
      e[at] = 0;
      return;
    }
    int shift = Math.getExponent(value);
    m[at] = Math.scalb(value, -shift);
    e[at] = exponent + shift;
  }

  private static void add(double[] m, long[] e, int at, double value, long exponent) {
    if (value == 0) {
      return;
    }
    if (m[at] == 0) {
      set(m, e, at, value, exponent);
      return;
    }
    long top = Math.max(e[at], exponent);
    double total =
        Math.scalb(m[at], (int) clamp(e[at] - top))
            + Math.scalb(value, (int) clamp(exponent - top));
    set(m, e, at, total, top);
  }
}
