package org.faultwright.pack.check;

import java.util.ArrayList;
import java.util.List;
import org.faultwright.pack.Pack;
import org.faultwright.problem.Problem;

/** All checks of packs, in the order in which they are made. */
public final class PackChecks {

  private static final List<PackCheck> ALL =
      List.of(
          new UnreachableCause(),
          new CauseNeverPresent(),
          new UselessEvent(),
          new EventNever(),
          new ComplaintWithoutUnlisted(),
          new OtherwiseOnComplaintEvent(),
          new CauseNotUnderItsComplaint(),
          new SharesMixed(),
          new GroupLikelihoods(),
          new CertainGroupWithRate(),
          new OneOfWithFollows(),
          new OneOfAlone(),
          new AfterFactorOne(),
          new PriorTooLarge(),
          new StepTellsNothing(),
          new CatchesBelowCriesWolf(),
          new StateNeverActive(),
          new StateWithoutRange(),
          new ReadingStatesOverlapNormal(),
          new ReferenceToleranceHuge(),
          new ComparedPoints(),
          new ModeNeverProvoked(),
          new ProvokesNothing(),
          new SymptomUnused(),
          new CureOfNothing(),
          new CauseWithoutCure(),
          new ComplaintWithoutFunctionTest(),
          new ProofNeedsFunction(),
          new SwapOfPartThatCarriesNothing(),
          new HarmWithoutEffect(),
          new RepeatShowsNothing(),
          new WaitsForCycle(),
          new OnlyIfNever(),
          new MissingCaution(),
          new DataRiskWithoutConsent(),
          new LimitAboveRail(),
          new NeedsBothPositions(),
          new SwitchUnreachable(),
          new NeverClosed(),
          new HoldNeverLifted(),
          new HoldForbidsItsOwnRelease(),
          new HoldForbidsNothing(),
          new SourceUnused(),
          new IdDiffersOnlyByHyphen(),
          new RenamedToUnknown(),
          new RenamedStillThere());

  private PackChecks() {}

  /** All checks. */
  public static List<PackCheck> all() {
    return ALL;
  }

  /** The problems that the checks find in a pack, sorted by place. */
  public static List<Problem> problems(Pack pack, Positions at) {
    List<Problem> found = new ArrayList<>();
    ALL.forEach(check -> check.check(pack, at, found::add));
    found.sort(null);
    return List.copyOf(found);
  }
}
