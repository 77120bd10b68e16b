package org.faultwright.measurement.knowngood;

/** What is known about whether the readings of a pin follow a normal distribution. */
public sealed interface Normality {

  /**
   * Tested.
   *
   * @param statistic Anderson's and Darling's, corrected for the number of readings
   * @param p how often normal readings give as large a statistic or a larger one, in [0, 1]
   */
  record Tested(double statistic, double p) implements Normality {}

  /** Not tested: fewer than eight readings. */
  record TooFew() implements Normality {}

  /** Not tested: the readings differ by less than the display's steps can show. */
  record TooCoarse() implements Normality {}
}
