package org.faultwright.pack;

/** Ids with a meaning of their own in every pack. */
public final class Conventions {

  /** The step that saves the customer's data. Once it is done, the data are safe. */
  public static final StepId BACK_UP_DATA = new StepId("back-up-data");

  /** The customer's word about paying more than the ceiling that was agreed at intake. */
  public static final ConsentId ABOVE_CEILING = new ConsentId("above-ceiling");

  private Conventions() {}
}
