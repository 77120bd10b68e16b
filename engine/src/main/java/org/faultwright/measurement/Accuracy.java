package org.faultwright.measurement;

/**
 * How far an instrument may be off.
 *
 * @param ofReading largest error as a part of the reading, for example 0.005 for 0.5 %
 * @param absolute largest error in SI units on top of it: counts times the value of one count
 * @param resolution the value of one count in SI units
 */
public record Accuracy(double ofReading, double absolute, double resolution) {

  /** Checks the domain. */
  public Accuracy {
    if (!(ofReading >= 0) || !(absolute >= 0) || !(resolution >= 0)) {
      throw new IllegalArgumentException(
          "accuracy must not be negative: " + ofReading + ", " + absolute + ", " + resolution);
    }
  }

  /**
   * What is assumed of an instrument of which nothing is stated: 1 % of the reading and one count
   * of an ordinary hand-held meter, on a display of that resolution. Common practice, no source.
   */
  public static Accuracy whenUnstated(Dimension dimension) {
    return new Accuracy(0.01, dimension.count(), dimension.count());
  }

  /**
   * Standard uncertainty at a value, by JCGM 100:2008, 4.3.7 (rectangular, a/sqrt 3) with the
   * display's resolution q/sqrt 12 added in quadrature.
   *
   * @param value the reading in SI units
   * @return standard uncertainty in SI units
   */
  public double standardUncertainty(double value) {
    double limit = ofReading * Math.abs(value) + absolute;
    return Math.sqrt(limit * limit / 3 + resolution * resolution / 12);
  }
}
