package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/** Concluded: something that a step shows is still to be seen. */
public record Unsettled(StepId step, Topic topic) {}
