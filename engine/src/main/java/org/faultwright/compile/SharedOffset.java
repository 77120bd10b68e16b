package org.faultwright.compile;

import org.faultwright.casefile.SharedSetup;

/**
 * What the readings of a case say of the systematic error that those of one setup share.
 *
 * @param setup the instrument and its leads
 * @param points of how many points readings share it, at least 2
 * @param mean the error to be expected, in units of the standard deviation that the instrument's
 *     accuracy gives it; above 0 where it shows too much
 * @param sd its standard deviation once the readings are known, in the same units; 1 before
 */
public record SharedOffset(SharedSetup setup, int points, double mean, double sd) {}
