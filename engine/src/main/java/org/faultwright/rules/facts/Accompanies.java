package org.faultwright.rules.facts;

import org.faultwright.pack.CautionId;
import org.faultwright.pack.StepId;

/** Concluded: a caution is shown beside a step. */
public record Accompanies(StepId step, CautionId caution) {}
