package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/** Something that a step shows on this device: its outcome, or the reading at one of its points. */
public record Shows(StepId step, Topic topic) {}
