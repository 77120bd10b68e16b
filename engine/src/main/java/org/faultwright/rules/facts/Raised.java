package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.HoldId;

/**
 * Concluded: what raises a hold is so, by the latest word about it.
 *
 * @param reasons the facts that say so
 * @param finding whether something found or done raises it, and not the bench or the customer alone
 */
public record Raised(HoldId hold, Set<FactId> reasons, boolean finding) {}
