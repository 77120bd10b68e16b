package org.faultwright.pack;

import java.util.LinkedHashMap;
import java.util.Map;

/** Ids with a meaning of their own in every pack. */
public final class Conventions {

  /** The step that saves the customer's data. Once it is done, the data are safe. */
  public static final StepId BACK_UP_DATA = new StepId("back-up-data");

  /** The customer's word about paying more than the ceiling that was agreed at intake. */
  public static final ConsentId ABOVE_CEILING = new ConsentId("above-ceiling");

  /**
   * The customer's word that data which cannot be saved first may be put at risk: there is a copy
   * of them elsewhere, or the customer can do without.
   */
  public static final ConsentId RISK_DATA = new ConsentId("risk-data");

  /** What the customer can be asked for whatever the pack says, each in words. */
  public static final Map<ConsentId, String> ASKED_ANYWHERE = askedAnywhere();

  private Conventions() {}

  private static Map<ConsentId, String> askedAnywhere() {
    Map<ConsentId, String> asked = new LinkedHashMap<>();
    asked.put(ABOVE_CEILING, "The price may go above the ceiling that was agreed");
    asked.put(RISK_DATA, "The data may be lost, or there is a copy of them elsewhere");
    return Ordered.copy(asked);
  }
}
