package org.faultwright.compile;

import java.util.Optional;
import org.faultwright.casefile.SharedSetup;

/**
 * Readings whose systematic error is z times its standard deviation, where z is a standard normal
 * number that all readings of one setup share.
 */
sealed interface SetupReadings permits PointReadings, PairReadings {

  /** What they share with others; empty: nothing. */
  Optional<SharedSetup> setup();

  /** P(readings | state, z), up to a factor that all states and all z share. */
  double[] likelihood(double z);

  /**
   * Upper bounds of {@link #likelihood} for all z from one on.
   *
   * @param side 1: from there upwards; -1: downwards
   */
  double[] mostFrom(double z, int side);

  /** P(readings | state), as if they shared nothing with other points. */
  double[] ofTheirOwn();

  /** Whether z moves the likelihood at all. */
  boolean feels(double reach);

  /** The smallest change of z over which the likelihood changes, for z up to the reach. */
  double finest(double reach);

  /** At least as large as any likelihood. */
  double most();
}
