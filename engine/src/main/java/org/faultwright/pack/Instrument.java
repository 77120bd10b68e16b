package org.faultwright.pack;

import java.util.Optional;
import org.faultwright.measurement.Accuracy;

/**
 * An instrument of the shop.
 *
 * @param accuracy how far its readings go; empty: not stated, so that a reading must state its own
 *     uncertainty or the default of the measurement package holds
 */
public record Instrument(InstrumentId id, String title, Optional<Accuracy> accuracy, Basis basis) {}
