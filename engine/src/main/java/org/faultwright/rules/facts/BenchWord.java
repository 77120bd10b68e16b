package org.faultwright.rules.facts;

import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;

/**
 * A switch was in a position.
 *
 * @param id the fact that says so, or whose step needed it
 * @param told whether it was said; otherwise it follows from a step that was carried out
 */
public record BenchWord(FactId id, BenchState state, boolean told) {}
