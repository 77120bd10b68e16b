package org.faultwright.explanation;

import java.util.List;
import org.faultwright.casefile.Told;
import org.faultwright.pack.Basis;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StepId;

/**
 * Why a cause ranks where it does.
 *
 * @param pAtFirst how likely it was with nothing but the reported complaints
 * @param pNow how likely it is now
 * @param facts what each fact says about it given all others, what speaks most for it first;
 *     reported complaints are not among them
 * @param restsOn what the numbers behind it rest on, without repetition: its own likelihood first,
 *     then those of what was observed
 * @param wouldChange what the outcomes of open steps would make of it, the largest change first
 * @param touched what was done that may itself have brought it about, the last first: what did I
 *     touch last?
 */
public record WhyCause(
    CauseId cause,
    double pAtFirst,
    double pNow,
    List<FactWeight> facts,
    List<Basis> restsOn,
    List<WouldChange> wouldChange,
    List<Touched> touched) {

  /** Nothing was done that may have brought it about. */
  public WhyCause(
      CauseId cause,
      double pAtFirst,
      double pNow,
      List<FactWeight> facts,
      List<Basis> restsOn,
      List<WouldChange> wouldChange) {
    this(cause, pAtFirst, pNow, facts, restsOn, wouldChange, List.of());
  }

  /** Copies the lists. */
  public WhyCause {
    facts = List.copyOf(facts);
    restsOn = List.copyOf(restsOn);
    wouldChange = List.copyOf(wouldChange);
    touched = List.copyOf(touched);
  }

  /**
   * Something done that may have brought the cause about.
   *
   * @param done the fact that tells of it
   * @param pCaused P(it brings the cause, or what the cause follows, about | that is absent before)
   */
  public record Touched(Told done, double pCaused) {}

  /** What a fact says about the cause, given all other facts. */
  public record FactWeight(Told told, Weight weight) {}

  /**
   * What an outcome of a step would make of the cause.
   *
   * @param pOutcome how likely the outcome is
   * @param pThen how likely the cause would then be
   */
  public record WouldChange(StepId step, OutcomeId outcome, double pOutcome, double pThen) {}
}
