package org.faultwright.rules.facts;

import org.faultwright.measurement.ReadingValue;

/** Whether two readings of the same thing agree. */
final class Apart {

  /** Coverage factor of the expanded uncertainties (JCGM 100:2008, 6.3.3: about 95 %). */
  private static final double K = 2;

  private Apart() {}

  /**
   * Whether |E_n| is above 1, where E_n is the difference over its expanded uncertainty (ISO
   * 13528:2022, 9.7). A value and one beyond the range always differ.
   */
  static boolean differ(ReadingValue a, double ua, ReadingValue b, double ub) {
    if (a instanceof ReadingValue.Measured m && b instanceof ReadingValue.Measured n) {
      double difference = Math.abs(m.quantity().si() - n.quantity().si());
      return difference > K * Math.hypot(ua, ub);
    }
    if (a instanceof ReadingValue.Named || b instanceof ReadingValue.Named) {
      return a.getClass() == b.getClass() && !a.equals(b); // a name and a number may both be right
    }
    return a.getClass() != b.getClass();
  }
}
