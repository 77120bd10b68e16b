package org.faultwright.rules.facts;

/** What inference and planning found has been handed in: advice is asked for. */
public record Weighed() {}
