package org.faultwright.rules.facts;

import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;

/**
 * A reading as told, with what measurement makes of it.
 *
 * @param taken the reading
 * @param corrected its value as the reference means it
 * @param setup what it shares its systematic error with
 * @param u its standard uncertainty, and which part of it other readings of one setup share
 * @param count the value of one count of the display, in SI units
 * @param state the state that it points to
 * @param nearLimit whether it lies so close to a limit that it counts for little
 * @param ruledOut how its setup differs from the one that the step states, in words
 */
public record ReadingTold(
    FactId id,
    Topic topic,
    Set<CauseId> ancestors,
    int epoch,
    StepId step,
    Fact.ReadingTaken taken,
    ReadingValue corrected,
    SharedSetup setup,
    ReadingUncertainty u,
    double count,
    StateId state,
    boolean nearLimit,
    Set<BenchState> needs,
    Optional<String> ruledOut)
    implements Observed {

  /**
   * Whether this reading and an earlier one of the same point differ by more than they may: by
   * their whole uncertainty, or in one setup by what the two do not share.
   */
  public boolean apartFrom(ReadingTold earlier) {
    return sharesSetupWith(earlier)
        ? Apart.differInOneSetup(this, earlier)
        : Apart.differ(corrected, u.combined(), earlier.corrected, earlier.u.combined());
  }

  /** Whether one instrument with its leads put one way took both. */
  public boolean sharesSetupWith(ReadingTold other) {
    return setup.equals(other.setup);
  }

  /** How this reading and an earlier one contradict each other, in words. */
  public String against(ReadingTold earlier) {
    return "two readings of "
        + topic.about().value()
        + ", "
        + earlier.taken.value()
        + " and "
        + taken.value()
        + ", differ by more than "
        + (sharesSetupWith(earlier) ? "one meter repeats itself" : "their uncertainty")
        + ", though nothing was changed in between";
  }
}
