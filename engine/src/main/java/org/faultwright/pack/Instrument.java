package org.faultwright.pack;

import java.util.Optional;
import org.faultwright.measurement.Accuracy;
import org.faultwright.measurement.Meter;

/**
 * An instrument of the shop.
 *
 * @param accuracy how far its readings go; empty: not stated, so that a reading must state its own
 *     uncertainty or the default of the measurement package holds
 * @param meter what else is known of it
 */
public record Instrument(
    InstrumentId id, String title, Optional<Accuracy> accuracy, Meter meter, Basis basis) {

  /** An instrument of which no more is known than its accuracy. */
  public Instrument(InstrumentId id, String title, Optional<Accuracy> accuracy, Basis basis) {
    this(id, title, accuracy, Meter.UNKNOWN, basis);
  }
}
