package org.faultwright.rules.facts;

import org.faultwright.pack.StepId;

/** Concluded: a function test that passed is to be done once more, in the closed device. */
public record AskedAgain(StepId step) {}
