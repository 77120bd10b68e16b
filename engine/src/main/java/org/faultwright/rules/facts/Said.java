package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.CauseId;

/**
 * A complaint, a symptom, history or consent as told: a later fact about the same thing replaces
 * it, unless the device was changed in between where it matters.
 *
 * @param denial whether the customer says that a complaint is not so
 */
public record Said(FactId id, Topic topic, Set<CauseId> ancestors, int epoch, boolean denial)
    implements Entry {}
