package org.faultwright.rules.facts;

import org.faultwright.casefile.FactId;
import org.faultwright.rules.Standing;

/** Concluded: there is something to say of a fact that counts. */
public record Marked(FactId id, Standing.Mark mark, String words) {}
