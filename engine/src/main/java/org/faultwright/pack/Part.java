package org.faultwright.pack;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

/**
 * A part that can be replaced.
 *
 * @param carries the causes that go away with it
 * @param price in the shop's currency; empty: not stated
 * @param paired whether a new one must be paired with the device, or something stays limited
 * @param leadTime how long it takes to come
 * @param reseats steps whose changes come along with replacing it: its own connectors are disturbed
 * @param leaves what stays limited afterwards, in words
 * @param afterwards what must be done afterwards, in words
 * @param bad the cause that stands for a new part that is itself bad; it acts wherever a carried
 *     cause is the input of an event
 */
public record Part(
    PartId id,
    String title,
    Set<CauseId> carries,
    OptionalDouble price,
    boolean paired,
    Optional<Duration> leadTime,
    List<StepId> reseats,
    Optional<String> leaves,
    Optional<String> afterwards,
    CauseId bad) {

  /** Copies the collections, keeping their order. */
  public Part {
    carries = Ordered.copy(carries);
    reseats = List.copyOf(reseats);
  }

  /** The id of the cause that stands for a bad new part, where the pack does not name one. */
  public static CauseId badNew(PartId part) {
    return new CauseId("new-" + part.value() + "-bad");
  }
}
