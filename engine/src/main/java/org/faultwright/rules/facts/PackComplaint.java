package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;

/**
 * A complaint of the pack.
 *
 * @param ancestors the causes that can move its function
 */
public record PackComplaint(ComplaintId id, Set<CauseId> ancestors) {}
