package org.faultwright.rules.facts;

/** Concluded: a point has been read well enough. */
public record Settled(Topic topic) {}
