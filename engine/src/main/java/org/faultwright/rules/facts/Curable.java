package org.faultwright.rules.facts;

import org.faultwright.pack.CauseId;

/**
 * Concluded: an open step can put a likely cause right.
 *
 * @param planned whether planning offers it
 */
public record Curable(CauseId cause, boolean planned) {}
