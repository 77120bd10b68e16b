package org.faultwright.diagnosis;

import org.faultwright.compile.Conflict;
import org.faultwright.compile.Explanations;
import org.faultwright.compile.Sensitivity;

/**
 * A closer look at a ranking: what comes together, whether the facts agree, and on which numbers of
 * the pack the order rests.
 *
 * @param sets the most probable sets of causes, since devices come with two faults
 * @param agreement how well the facts agree, and what the others predicted for each
 * @param leader how the leading cause's probability depends on the numbers of the pack
 */
public record Scrutiny(Explanations sets, Conflict agreement, Sensitivity leader) {}
