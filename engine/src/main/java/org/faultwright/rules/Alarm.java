package org.faultwright.rules;

import org.faultwright.pack.BenchState;
import org.faultwright.pack.HoldId;

/**
 * What a hold forbids is going on at this moment: act now.
 *
 * @param hold the hold that is broken
 * @param ends the bench position that ends it
 * @param words what is going on and what to do, for the technician
 */
public record Alarm(HoldId hold, BenchState ends, String words) {}
