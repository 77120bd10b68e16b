package org.faultwright.rules.facts;

import org.faultwright.measurement.ReadingValue;

/** Whether two readings of the same thing agree. */
final class Apart {

  /** Coverage factor of the expanded uncertainties (JCGM 100:2008, 6.3.3: about 95 %). */
  private static final double K = 2;

  /**
   * Two readings of one setup may always differ by so many counts: the last digit flickers. Common
   * practice, no source.
   */
  private static final double FLICKER = 2;

  private Apart() {}

  /**
   * The same for readings of one setup: what they share cancels in their difference (JCGM 100:2008,
   * 5.2.2 with a correlation coefficient of 1), so that only the random parts are left, and what
   * the shared ones differ by.
   */
  static boolean differInOneSetup(ReadingTold a, ReadingTold b) {
    double shared = a.u().systematic() - b.u().systematic();
    double u = Math.hypot(shared, Math.hypot(a.u().random(), b.u().random()));
    return a.corrected() instanceof ReadingValue.Measured m
            && b.corrected() instanceof ReadingValue.Measured n
        ? Math.abs(m.quantity().si() - n.quantity().si())
            > Math.max(K * u, FLICKER * Math.max(a.count(), b.count()) * (1 + 1e-9))
        : differ(a.corrected(), 0, b.corrected(), 0);
  }

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
