package org.faultwright.rules.facts;

/** Concluded: one candidate comes before another. */
public record Outranks(Candidate winner, Candidate loser) {}
