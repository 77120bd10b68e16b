package org.faultwright.rules.facts;

import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.StepId;

/**
 * A step carried out, as told.
 *
 * @param times how often it has been carried out by then
 * @param needs the bench positions that the step needs
 */
public record Did(FactId id, StepId step, int times, Set<BenchState> needs) {}
