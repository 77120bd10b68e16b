package org.faultwright.rules.facts;

import org.faultwright.pack.HoldId;

/** Concluded: what lifts a hold is so. */
public record Lifted(HoldId hold) {}
