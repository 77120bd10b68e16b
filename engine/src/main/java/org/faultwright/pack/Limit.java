package org.faultwright.pack;

import java.util.Optional;
import org.faultwright.measurement.Quantity;

/**
 * The most that may be applied in a step.
 *
 * @param most the value, for example 1 V
 * @param rail the rail that it is applied to, whose nominal it must not exceed
 */
public record Limit(Quantity most, Optional<RailId> rail) {}
