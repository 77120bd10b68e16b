package org.faultwright.rules.facts;

import java.util.Collections;
import java.util.Set;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ConsentId;

/**
 * What doing something involves.
 *
 * @param activities for holds
 * @param consents what the customer must agree to
 */
public record Doing(Subject subject, Set<ActivityId> activities, Set<ConsentId> consents) {

  /** Whether it involves one of these. */
  public boolean involves(Set<ActivityId> forbidden) {
    return !Collections.disjoint(activities, forbidden);
  }

  /** Whether it is no act, but a switch that stands in a position. */
  public boolean standing() {
    return subject instanceof Subject.OfPosition;
  }

  /**
   * The position of a switch that stands.
   *
   * @throws ClassCastException when it is an act
   */
  public BenchState position() {
    return ((Subject.OfPosition) subject).state();
  }
}
