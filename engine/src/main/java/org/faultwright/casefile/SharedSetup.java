package org.faultwright.casefile;

import java.util.Comparator;
import java.util.Optional;
import org.faultwright.measurement.Dimension;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.Step;

/**
 * What readings have in common when they share one systematic error: the instrument and how its
 * leads are put. Where no instrument is stated it is the bench's own for that kind of quantity.
 *
 * @param instrument the instrument, where the case or the step states it
 */
public record SharedSetup(
    Optional<InstrumentId> instrument, Dimension dimension, Optional<String> leads)
    implements Comparable<SharedSetup> {

  private static final Comparator<SharedSetup> ORDER =
      Comparator.comparing((SharedSetup s) -> s.instrument.map(InstrumentId::value).orElse(""))
          .thenComparing(SharedSetup::dimension)
          .thenComparing(s -> s.leads.orElse(""));

  /** The setup of a reading: as it says itself, or else as its step says. */
  public static SharedSetup of(Step step, Fact.ReadingTaken taken) {
    Optional<Step.PinTable> table = step.pinTable();
    return new SharedSetup(
        taken.setup().instrument().or(() -> table.flatMap(Step.PinTable::instrument)),
        taken.value().kind(),
        taken.setup().leads().or(() -> table.flatMap(Step.PinTable::leads)));
  }

  @Override
  public int compareTo(SharedSetup other) {
    return ORDER.compare(this, other);
  }
}
