package org.faultwright.compile;

import java.util.Map;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Ordered;

/**
 * How likely each cause is, estimated from random draws: for a case that is too wide for exact
 * answers, and only when somebody asks for it.
 *
 * @param draws how many were made
 * @param effectiveDraws how many equally weighted draws would be as good; below some hundred
 *     neither the estimate nor its standard error is to be relied on
 * @param causes the causes that may be present, in pack order
 */
public record Estimate(int draws, double effectiveDraws, Map<CauseId, OfCause> causes) {

  /** Copies the map, keeping its order. */
  public Estimate {
    causes = Ordered.copy(causes);
  }

  /**
   * One cause.
   *
   * @param p the estimated P(present now | facts)
   * @param standardError of {@code p}; 0 where no draw had the cause, or all had it: then P may be
   *     some 3 / effectiveDraws away (rule of three)
   */
  public record OfCause(double p, double standardError) {}
}
