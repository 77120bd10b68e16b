package org.faultwright.rules.facts;

import org.faultwright.pack.HoldId;

/** Concluded: there is something to do about a hold. */
public record Liftable(HoldId hold) {}
