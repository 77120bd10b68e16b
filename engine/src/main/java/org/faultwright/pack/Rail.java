package org.faultwright.pack;

import org.faultwright.measurement.Quantity;

/** A supply rail with its nominal voltage. */
public record Rail(RailId id, String title, Quantity nominal, Basis basis) {}
