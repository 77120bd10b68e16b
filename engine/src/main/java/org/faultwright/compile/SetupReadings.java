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

  /** P(readings | state), as if they shared nothing with other points. */
  double[] ofTheirOwn();

  /** Whether z moves the likelihood at all. */
  boolean feels(double reach);

  /** The smallest change of z over which the likelihood changes, for z up to the reach. */
  double finest(double reach);

  /** At least as large as any likelihood. */
  double most();
}
