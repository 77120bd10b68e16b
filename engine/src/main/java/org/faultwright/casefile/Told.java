package org.faultwright.casefile;

import java.util.Optional;

/**
 * A fact as it stands in a case.
 *
 * @param label a name that the case gives it, so that an expectation can point at it
 */
public record Told(FactId id, Optional<String> label, Fact fact) {}
