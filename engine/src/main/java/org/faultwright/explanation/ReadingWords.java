package org.faultwright.explanation;

import java.util.Locale;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.measurement.Conformance;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;

/** How a reading keeps to its reference, as a technician reads it. */
public final class ReadingWords {

  private ReadingWords() {}

  /**
   * One line without a full stop, such as {@code in tolerance, 91.9 %, but inside by less than its
   * uncertainty}. The percentage is how sure that is, by the reading alone.
   */
  public static String of(Conformance c) {
    String guard =
        c.accepted() == c.inside()
            ? ""
            : c.accepted() ? "; let pass by the guard band" : "; refused by the guard band";
    return unguarded(c) + guard;
  }

  private static String unguarded(Conformance c) {
    if (!c.measured()) {
      return c.inside() ? "in tolerance" : "out of tolerance";
    }
    return switch (c.verdict()) {
      case IN -> "in tolerance, " + percent(c.pConforms());
      case JUST_IN ->
          "in tolerance, " + percent(c.pConforms()) + ", but inside by less than its uncertainty";
      case TOO_CLOSE -> "too close to call, in tolerance with " + percent(c.pConforms());
      case JUST_OUT ->
          "out of tolerance, "
              + percent(1 - c.pConforms())
              + ", but outside by less than its uncertainty";
      case OUT -> "out of tolerance, " + percent(1 - c.pConforms());
    };
  }

  /** Why reading again with the same instrument helps, or why it does not; one sentence. */
  public static String again(JudgedReading r) {
    Dimension kind = r.point().reference().dimension();
    String own = expanded(r.uncertainty().systematic(), kind);
    return r.readingAgainHelps()
        ? "Reading again helps: much of its uncertainty (\u00b1"
            + expanded(r.uncertainty().combined(), kind)
            + ", \u00b1"
            + expanded(r.uOfMean(2), kind)
            + " after one more) is chance."
        : "Reading again with the same meter does not help: the meter's own error, \u00b1"
            + own
            + ", stays. Another meter or another test tells more.";
  }

  /** U = 2 u, which holds in about 95 of 100 cases. */
  private static String expanded(double u, Dimension kind) {
    return new Quantity(2 * u, kind).format(2);
  }

  /** With tenths: near a limit they count. */
  private static String percent(double p) {
    return p < 0.001
        ? "below 0.1 %"
        : p > 0.999 ? "above 99.9 %" : String.format(Locale.ROOT, "%.1f %%", 100 * p);
  }
}
