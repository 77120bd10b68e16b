package org.faultwright.compile;

import java.util.List;
import java.util.Map;
import org.faultwright.casefile.Told;
import org.faultwright.pack.Ordered;

/**
 * How well the facts of a case agree with one another: the sum of ln P(fact) over the facts minus
 * ln P(all of them). Above 0 they agree less than facts that have nothing to do with one another,
 * as where a reading was misread or a cause is not in the pack; below 0 they support one another.
 *
 * @param measure the sum; 0 where there is no or one fact
 * @param facts each fact beside what the others predicted, in order
 * @see "F. V. Jensen, B. Chamberlain, T. Nordahl, F. Jensen, Analysis in HUGIN of data conflict,
 *     UAI 1990"
 */
public record Conflict(double measure, List<Expected> facts) {

  /** Copies the list. */
  public Conflict {
    facts = List.copyOf(facts);
  }

  /**
   * A fact and what was to be expected of it.
   *
   * @param told the fact
   * @param logPAlone ln P(fact) before any other fact, the attempts that were made apart
   * @param logPGivenRest ln P(fact | all others); readings enter by their probability density
   * @param predicted for an outcome P(outcome | all others) of its step; for a reading P(true state
   *     of the point | all others); empty for other facts, and before an attempt
   */
  public record Expected(
      Told told, double logPAlone, double logPGivenRest, Map<String, Double> predicted) {

    /** Copies the map, keeping its order. */
    public Expected {
      predicted = Ordered.copy(predicted);
    }

    /**
     * How much less likely the others make it than it was alone, in units of ln; may be below 0.
     */
    public double surprise() {
      return logPAlone - logPGivenRest;
    }
  }
}
