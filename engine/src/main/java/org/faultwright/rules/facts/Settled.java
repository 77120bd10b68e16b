package org.faultwright.rules.facts;

/** Concluded: nothing more is to be learned by seeing this again while nothing changes. */
public record Settled(Topic topic) {}
