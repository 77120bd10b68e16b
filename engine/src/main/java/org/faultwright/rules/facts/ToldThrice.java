package org.faultwright.rules.facts;

/** Concluded: something has been told so often in an epoch that telling it again is no help. */
public record ToldThrice(Topic topic, int epoch) {}
