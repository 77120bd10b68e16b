/**
 * Quantities with units, instruments, references known to be good, and how a reading becomes a
 * likelihood over the states of a point.
 *
 * <p>Entry types: {@code Quantity}, {@code ReadingModel} and, to accept or refuse by a rule, {@code
 * GuardBand}. May use {@code problem}.
 */
package org.faultwright.measurement;
