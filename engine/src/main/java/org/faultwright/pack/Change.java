package org.faultwright.pack;

/**
 * What a step does to a cause that is present.
 *
 * @param cures P(the cause is gone afterwards)
 * @param hides P(the cause stays, but does not act until the next attempt), given that it is not
 *     cured
 */
public record Change(Chance cures, Chance hides) {}
