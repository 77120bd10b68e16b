package org.faultwright.rules.facts;

import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;

/**
 * One of the most likely causes.
 *
 * @param rank from 1, the most likely
 * @param p P(the cause is present | all facts)
 * @param kind what sort of answer it is
 * @param sendOn whether its repair is not for this bench
 */
public record Leader(int rank, CauseId cause, double p, Cause.Kind kind, boolean sendOn) {

  /** Whether there is nothing at this device to put right. */
  public boolean notTheDevice() {
    return kind == Cause.Kind.OUTSIDE || kind == Cause.Kind.NO_FAULT;
  }

  /** Whether it may be repaired at this bench. */
  public boolean forThisBench() {
    return !sendOn;
  }

  /** Whether p is at least one half. */
  public boolean moreLikelyThanNot() {
    return p >= 0.5;
  }

  /** Checks the domain. */
  public Leader {
    if (rank < 1) {
      throw new IllegalArgumentException("rank must be at least 1: " + rank);
    }
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("p must be in [0, 1]: " + p);
    }
  }
}
