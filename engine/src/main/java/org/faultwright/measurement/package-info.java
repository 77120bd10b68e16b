/**
 * Quantities with units, instruments, references known to be good, and how a reading becomes a
 * likelihood over the states of a point.
 *
 * <p>Entry types: {@code Quantity} and {@code ReadingModel}. May use {@code problem}.
 */
package org.faultwright.measurement;
