package org.faultwright.rules.facts;

/** Concluded: a function is proved, and still it is not to be relied on. */
public record Unsound() {}
