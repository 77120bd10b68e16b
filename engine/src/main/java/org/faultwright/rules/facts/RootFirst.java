package org.faultwright.rules.facts;

import org.faultwright.pack.CauseId;
import org.faultwright.pack.StepId;

/**
 * A repair of what follows another cause, while that cause is likely still there: it would come
 * back.
 *
 * @param repair the repair of the follower; it does not cure the root
 */
public record RootFirst(StepId repair, CauseId follower, CauseId root) {}
