package org.faultwright.pack;

import java.util.Optional;

/**
 * Something that happened to the device and raises the odds of causes.
 *
 * @param likely P(it happened), per device taken in
 * @param said how far the customer's word about it goes; empty: the word is not taken as evidence
 * @param seen how far our own look at its traces goes; empty: there is nothing to see
 */
public record History(
    HistoryId id, String title, Chance likely, Optional<Witness> said, Optional<Witness> seen) {

  /**
   * A noisy yes or no about a fact.
   *
   * @param catches P(yes | it is so)
   * @param criesWolf P(yes | it is not so)
   */
  public record Witness(Chance catches, Chance criesWolf) {}
}
