package org.faultwright.inference;

/** Numbers with a binary exponent beside each, so that nothing underflows. Not negative. */
final class ScaledCells {

  private final double[] m;
  private final long[] e;

  ScaledCells(int cells) {
    m = new double[cells];
    e = new long[cells];
  }

  void set(int cell, double value) {
    set(cell, value, 0);
  }

  void copy(int cell, int of) {
    m[cell] = m[of];
    e[cell] = e[of];
  }

  void product(int cell, int a, int b) {
    set(cell, m[a] * m[b], e[a] + e[b]);
  }

  void add(int cell, int term) {
    add(cell, m[term], e[term]);
  }

  void addProduct(int cell, int a, int b) {
    add(cell, m[a] * m[b], e[a] + e[b]);
  }

  /** Natural logarithm. */
  double log(int cell) {
    return m[cell] == 0 ? Double.NEGATIVE_INFINITY : Math.log(m[cell]) + e[cell] * Math.log(2);
  }

  /** The quotient of two cells. */
  double quotient(int a, int b) {
    return Math.scalb(m[a] / m[b], (int) clamp(e[a] - e[b]));
  }

  /** The product of two cells, divided by a third. */
  double share(int a, int b, int whole) {
    return Math.scalb(m[a] * m[b] / m[whole], (int) clamp(e[a] + e[b] - e[whole]));
  }

  private static long clamp(long exponent) {
    return Math.max(-5000, Math.min(5000, exponent));
  }

  private void set(int at, double value, long exponent) {
    if (value == 0) {
      m[at] = 0;
      e[at] = 0;
      return;
    }
    int shift = Math.getExponent(value);
    m[at] = Math.scalb(value, -shift);
    e[at] = exponent + shift;
  }

  private void add(int at, double value, long exponent) {
    if (value == 0) {
      return;
    }
    if (m[at] == 0) {
      set(at, value, exponent);
      return;
    }
    long top = Math.max(e[at], exponent);
    double total =
        Math.scalb(m[at], (int) clamp(e[at] - top))
            + Math.scalb(value, (int) clamp(exponent - top));
    set(at, total, top);
  }
}
