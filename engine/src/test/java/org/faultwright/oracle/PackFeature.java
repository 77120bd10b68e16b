package org.faultwright.oracle;

import java.util.EnumSet;
import java.util.Set;

/** What random packs and cases may contain beyond causes with priors, plain events and tests. */
public enum PackFeature {
  /** Events that need all, at least some, or none of their inputs. */
  COMBINATIONS,
  /** Inputs and triggers with strengths below 1. */
  STRENGTHS,
  /** Events that hold by themselves at times. */
  OTHERWISE,
  /** A group of causes of which at most one is present. */
  GROUPS,
  /** A group of causes of which exactly one is present at first. */
  CERTAIN_GROUPS,
  /** History with the customer's word and our look at its traces. */
  HISTORY,
  /** Causes that follow others. */
  FOLLOWS,
  /** Causes that come and go. */
  COMES_AND_GOES,
  /** Tests that look at several nodes at once. */
  TESTS_OF_SEVERAL,
  /** Observations with several states. */
  STATES,
  /** Observations with a full table. */
  TABLES,
  /** Steps that watch how far something gets. */
  SEQUENCES,
  /** Symptoms. */
  SYMPTOMS,
  /** Steps with points where readings are taken. */
  READINGS,
  /**
   * Points whose reference comes from samples, is spread over decades or has one limit; meters that
   * show no more than so much.
   */
  REFERENCES,
  /** Two points that are compared. */
  COMPARED,
  /** A second complaint, and complaints that are reported by mistake. */
  COMPLAINTS,
  /** Steps that cure. */
  REPAIRS,
  /** Repairs that hide. */
  HIDES,
  /** Repairs with a fresh chance each time. */
  REPEATABLE,
  /** Parts that are replaced. */
  SWAPS,
  /** Steps that do harm. */
  HARMS,
  /** Repeats of which it is not sure that they copy the first outcome. */
  UNSURE_COPIES,
  /** Probabilities of exactly 0 and 1. */
  EXTREMES;

  /** Those that make attempts. */
  public static final Set<PackFeature> ATTEMPTS =
      Set.copyOf(EnumSet.of(REPAIRS, HIDES, REPEATABLE, SWAPS, HARMS));

  /** All features. */
  public static Set<PackFeature> all() {
    return EnumSet.allOf(PackFeature.class);
  }

  /** All features without attempts. */
  public static Set<PackFeature> withoutAttempts() {
    return EnumSet.complementOf(EnumSet.copyOf(ATTEMPTS));
  }
}
