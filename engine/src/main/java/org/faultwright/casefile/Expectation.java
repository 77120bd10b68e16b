package org.faultwright.casefile;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Ordered;

/**
 * What a pack's own case expects to come out.
 *
 * @param leads the cause that must rank first
 * @param atLeast causes with the least probability that they must have
 * @param atMost causes with the most probability that they may have
 * @param advice the advice that must be given: its kind, and the step where it names one
 * @param impossible whether the facts must be found impossible
 * @param decisive label of the fact without which the expectation must fail
 * @param blocked steps that must not be open
 * @param holds holds that must be in force, by id
 */
public record Expectation(
    Optional<CauseId> leads,
    Map<CauseId, Double> atLeast,
    Map<CauseId, Double> atMost,
    Optional<String> advice,
    boolean impossible,
    Optional<String> decisive,
    List<String> blocked,
    List<String> holds) {

  /** Copies the collections, keeping their order. */
  public Expectation {
    atLeast = Ordered.copy(atLeast);
    atMost = Ordered.copy(atMost);
    blocked = List.copyOf(blocked);
    holds = List.copyOf(holds);
  }
}
