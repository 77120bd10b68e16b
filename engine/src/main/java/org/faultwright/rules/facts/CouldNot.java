package org.faultwright.rules.facts;

import org.faultwright.casefile.FactId;
import org.faultwright.pack.StepId;

/** A step that could not be carried out, as told. */
public record CouldNot(FactId id, StepId step, String why) {}
