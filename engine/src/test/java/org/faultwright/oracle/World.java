package org.faultwright.oracle;

import static java.util.stream.Collectors.toCollection;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.oracle.Evidence.Pair;
import org.faultwright.oracle.Evidence.ReadingsOf;
import org.faultwright.oracle.Evidence.Seen;
import org.faultwright.oracle.Evidence.Sitting;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.EventId;
import org.faultwright.pack.History;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;

/** One world: a device, what is done to it, and how likely that makes what was seen. */
public final class World {

  private final Pack pack;
  private final Evidence evidence;
  private final List<SharedReadings> readings;
  private final Chances chances;
  final CausesInTime causes;
  private final int now;

  World(
      Pack pack, Priors priors, Evidence evidence, List<SharedReadings> readings, Chances chances) {
    this.pack = pack;
    this.evidence = evidence;
    this.readings = readings;
    this.chances = chances;
    this.causes = new CausesInTime(pack, priors, evidence.timeline, chances);
    this.now = evidence.timeline.now();
  }

  /** Whether something happened to the device before it was taken in. */
  public boolean happened(HistoryId history) {
    return causes.happened(history);
  }

  /** Whether a cause is present now, acting or not. */
  public boolean isPresent(CauseId cause) {
    return causes.isPresent(cause, now);
  }

  /** Whether a cause was present when the device was taken in. */
  public boolean wasPresentAtFirst(CauseId cause) {
    return causes.isPresent(cause, 0);
  }

  /** The causes that are present now. */
  public Set<CauseId> present() {
    return pack.causes().keySet().stream()
        .filter(this::isPresent)
        .collect(toCollection(LinkedHashSet::new));
  }

  /** Whether an event holds now, with the device at rest. */
  public boolean holdsAtRest(EventId event) {
    return lookNowAtRest().acts(event);
  }

  /** Whether the function of a complaint is lost now to the one who uses the device. */
  public boolean isLostInUse(ComplaintId complaint) {
    return isLostInUse(complaint, now);
  }

  /** Whether the function of a complaint was lost when the device was taken in. */
  public boolean wasLostAtFirst(ComplaintId complaint) {
    return isLostInUse(complaint, 0);
  }

  /** Whether the function of a complaint is lost in use once nothing is hidden any longer. */
  public boolean comesBack(ComplaintId complaint) {
    return new Look(pack, evidence.ancestry, causes, chances, "later", now, Optional.empty(), true)
        .acts(pack.complaints().get(complaint).event());
  }

  private boolean isLostInUse(ComplaintId complaint, int epoch) {
    EventId lost = pack.complaints().get(complaint).event();
    return look("in use", epoch, Optional.empty()).acts(lost);
  }

  /** What the step shows when it is carried out once more, now. */
  public OutcomeId nextOutcome(StepId step) {
    Sitting sitting = evidence.sittingNow(step);
    Seen seen = evidence.sittings.getOrDefault(sitting, new Seen());
    int repeat = seen.outcomes.size();
    if (repeat > 0 && isCopy(sitting, repeat)) {
      return seen.outcomes.get(0);
    }
    double[] p = pOutcomes(sitting, repeat);
    return evidence.shows(step).outcomes().get(chances.draw(List.of("next", step), p));
  }

  /** The true state of a point, if it is read now. */
  public StateId state(PointId point) {
    ReadingsOf of = evidence.readingsNow(point);
    int state = lookFor(of).state(of.point());
    return state == 0 ? StateId.NORMAL : of.point().states().get(state - 1).id();
  }

  // How likely all this makes the evidence

  /** P(evidence | this world). */
  double pEvidence() {
    double p = 1;
    for (Map.Entry<ComplaintId, Set<Boolean>> said : evidence.reports.entrySet()) {
      p *= p == 0 ? 0 : pReport(pack.complaints().get(said.getKey()), said.getValue());
    }
    for (Map.Entry<HistoryId, Set<Boolean>> said : evidence.said.entrySet()) {
      p *= p == 0 ? 0 : pWord(said.getKey(), pack.histories().get(said.getKey()).said(), said);
    }
    for (Map.Entry<HistoryId, Set<Boolean>> seen : evidence.traces.entrySet()) {
      p *= p == 0 ? 0 : pWord(seen.getKey(), pack.histories().get(seen.getKey()).seen(), seen);
    }
    for (Map.Entry<Sitting, Seen> sitting : evidence.sittings.entrySet()) {
      p *= p == 0 ? 0 : pSitting(sitting.getKey(), sitting.getValue());
    }
    for (SharedReadings read : readings) {
      p *=
          p == 0
              ? 0
              : read.p(
                  read.points().stream().map(this::stateOf).toList(),
                  read.pairs().stream().map(this::stateOf).toList());
    }
    return p;
  }

  private int stateOf(ReadingsOf of) {
    return of.knownGood() ? 0 : lookFor(of).state(of.point());
  }

  /** 0 where one of two points is not normal, 1 where both are and alike, 2 where they differ. */
  private int stateOf(Pair pair) {
    if (stateOf(pair.first()) != 0 || stateOf(pair.second()) != 0) {
      return 0;
    }
    return !pair.first().knownGood() && lookFor(pair.sitting(), 0).differ(pair.step()) ? 2 : 1;
  }

  private double pReport(Complaint complaint, Set<Boolean> said) {
    double pReported = wasLostAtFirst(complaint.id()) ? 1 : complaint.reportedByMistake().p();
    return pAnswer(pReported, said);
  }

  private double pWord(
      HistoryId history,
      Optional<History.Witness> witness,
      Map.Entry<HistoryId, Set<Boolean>> said) {
    if (witness.isEmpty()) {
      return 1;
    }
    History.Witness w = witness.get();
    return pAnswer(happened(history) ? w.catches().p() : w.criesWolf().p(), said.getValue());
  }

  /** An answer is given once: told twice it is told once, told both ways it is impossible. */
  private static double pAnswer(double pYes, Set<Boolean> said) {
    return said.size() == 2 ? 0 : said.contains(true) ? pYes : 1 - pYes;
  }

  private double pSitting(Sitting sitting, Seen seen) {
    double p = 1;
    for (int i = 0; i < seen.outcomes.size() && p > 0; i++) {
      OutcomeId outcome = seen.outcomes.get(i);
      if (i > 0 && isCopy(sitting, i)) {
        p *= outcome.equals(seen.outcomes.get(0)) ? 1 : 0;
      } else {
        p *= pOutcomes(sitting, i)[evidence.shows(sitting.source()).outcomes().indexOf(outcome)];
      }
    }
    if (seen.notSeen && p > 0) {
      p *= pNotSeen(sitting, seen);
    }
    return p;
  }

  private double pNotSeen(Sitting sitting, Seen seen) {
    double overlooked = pack.symptoms().get((SymptomId) sitting.source()).overlooked().p();
    OutcomeId positive = Evidence.positive(evidence.shows(sitting.source()));
    if (!seen.outcomes.isEmpty()) {
      return seen.outcomes.get(0).equals(positive) ? overlooked : 1;
    }
    double[] p = pOutcomes(sitting, 0);
    return overlooked * p[0] + p[1];
  }

  boolean isCopy(Sitting sitting, int repeat) {
    return chances.flip(List.of("copies", sitting, repeat), evidence.pCopies(sitting.source()));
  }

  private double[] pOutcomes(Sitting sitting, int repeat) {
    Observation shows = evidence.shows(sitting.source());
    return lookFor(sitting, repeat).pOutcomes(sitting.source(), shows);
  }

  /** The look behind an outcome, the first or a repeat of it that is no copy. */
  Look lookFor(Sitting sitting, int repeat) {
    return look(List.of(sitting, repeat), sitting.epoch(), modeOf(sitting));
  }

  /** The look behind readings: in the first carrying out of their step. */
  Look lookFor(ReadingsOf of) {
    return look(List.of(of.carryingOut(), 0), of.epoch(), modeOf(of.carryingOut()));
  }

  private Optional<ModeId> modeOf(Sitting sitting) {
    return Optional.of(
        sitting.source() instanceof StepId step
            ? pack.steps().get(step).provokes()
            : pack.symptoms().get((SymptomId) sitting.source()).provokes());
  }

  Look lookNowAtRest() {
    return look("now", now, Optional.of(ModeId.AT_REST));
  }

  private Look look(Object name, int epoch, Optional<ModeId> provokes) {
    return new Look(pack, evidence.ancestry, causes, chances, name, epoch, provokes, false);
  }
}
