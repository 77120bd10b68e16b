package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/** Concluded: a step may be done now. */
public record Open(StepId step) {}
