package org.faultwright.rules.facts;

import org.faultwright.casefile.FactId;
import org.faultwright.rules.Standing;

/** Concluded: a fact does not count. */
public record Discounted(FactId id, Standing.Verdict verdict, String words) {}
