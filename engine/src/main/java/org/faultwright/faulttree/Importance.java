package org.faultwright.faulttree;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How much a basic event matters for the top event, basic events being independent.
 *
 * @param p P(event)
 * @param bearing which way the event bears on the top event
 * @param birnbaum P(top | event) - P(top | not event): the derivative of P(top) by P(event). With
 *     all its digits, except where the event bears both ways
 * @param relative the measures relative to P(top); empty where the top event is impossible
 */
public record Importance(
    EventName event, double p, Bearing bearing, double birnbaum, Optional<Relative> relative) {

  /** Which way an event bears on the top event. */
  public enum Bearing {
    /** Where it matters, the top event happens because of it. */
    TOWARDS,
    /** Where it matters, the top event fails to happen because of it. */
    AGAINST,
    /** Now one, now the other. */
    BOTH,
    /** It never matters. */
    NONE
  }

  /**
   * Measures relative to P(top).
   *
   * @param criticality birnbaum * P(event) / P(top): P(the event is what makes the difference |
   *     top) in a coherent tree
   * @param diagnostic P(event | top)
   * @param cutSets P(some minimal cut set with the event happens) / P(top), the Fussell-Vesely
   *     measure; empty where there are too many cut sets
   * @param achievementWorth P(top | event) / P(top), risk achievement worth
   * @param reductionWorth P(top) / P(top | not event), risk reduction worth; positive infinity
   *     where the top event cannot happen without the event
   */
  public record Relative(
      double criticality,
      double diagnostic,
      OptionalDouble cutSets,
      double achievementWorth,
      double reductionWorth) {}
}
