package org.faultwright.pack;

import java.util.Optional;

/**
 * Something seen or heard without instruments. The positive outcome of {@code shows} is "present".
 *
 * @param shows what its presence tells; empty: it tells nothing about causes, but holds and
 *     conditions may ask for it
 * @param overlooked P(we do not see it at a first look | we would find it present by looking
 *     closely); how "not seen" is weaker than "absent"
 * @param provokes what looking for it does to faults that come and go
 */
public record Symptom(
    SymptomId id, String title, Optional<Observation> shows, Chance overlooked, ModeId provokes) {

  /** A symptom that is looked for at rest. */
  public Symptom(SymptomId id, String title, Optional<Observation> shows, Chance overlooked) {
    this(id, title, shows, overlooked, ModeId.AT_REST);
  }

  /**
   * How often a first look overlooks a symptom, where the pack says nothing. Common practice, no
   * source.
   */
  public static final double DEFAULT_OVERLOOKED = 0.5;
}
