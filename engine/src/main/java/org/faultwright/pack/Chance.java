package org.faultwright.pack;

import java.util.Optional;

/**
 * A probability that an author states, with what it rests on.
 *
 * @param p the probability, in [0, 1]
 * @param basis what the number rests on
 * @param why why it is exactly 0 or 1, where the author says so
 */
public record Chance(double p, Basis basis, Optional<String> why) {

  /** Checks the domain. */
  public Chance {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("p must be in [0, 1]: " + p);
    }
  }

  /** A probability with its basis. */
  public static Chance of(double p, Basis basis) {
    return new Chance(p, basis, Optional.empty());
  }

  /** A probability that follows from a definition: a default. */
  public static Chance byDefinition(double p) {
    return of(p, new Basis.ByDefinition());
  }
}
