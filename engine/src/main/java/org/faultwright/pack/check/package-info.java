/**
 * What a pack that reads well can still get wrong: one class for each check.
 *
 * <p>Entry type: {@code PackChecks}. May use the records of {@code pack}, {@code problem} and
 * {@code measurement}; the reader calls the checks, never the other way round.
 */
package org.faultwright.pack.check;
