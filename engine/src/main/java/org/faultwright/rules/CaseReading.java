package org.faultwright.rules;

import static java.util.stream.Collectors.joining;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.ReadingCorrection;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.casefile.SharedSetup;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Id;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;
import org.faultwright.rules.facts.Attempted;
import org.faultwright.rules.facts.BenchWord;
import org.faultwright.rules.facts.CheckTold;
import org.faultwright.rules.facts.CouldNot;
import org.faultwright.rules.facts.Did;
import org.faultwright.rules.facts.OutcomeTold;
import org.faultwright.rules.facts.ReadingTold;
import org.faultwright.rules.facts.Said;
import org.faultwright.rules.facts.Topic;

/**
 * Turns what has been told into facts that the rules can match: with the causes that can move each,
 * the bench that its step needs, and what measurement makes of a reading. Immutable.
 */
final class CaseReading {

  private record At(Step step, Point point, ReadingModel model, Set<CauseId> ancestors) {}

  /**
   * What comparing two points shows by their readings.
   *
   * @param by the later one of the two readings
   */
  record Compared(StepId step, OutcomeId outcome, FactId by) {}

  private record Pair(StepId step, Comparison compares, PairModel model) {}

  private final Pack pack;
  private final Lineage lineage;
  private final Map<PointId, At> points = new HashMap<>();
  private final List<Pair> pairs = new ArrayList<>();
  private final Map<StepId, Set<CauseId>> ofStep = new HashMap<>();
  private final Map<SymptomId, Set<CauseId>> ofSymptom = new HashMap<>();

  CaseReading(Pack pack, Lineage lineage) {
    this.pack = pack;
    this.lineage = lineage;
    for (Step step : pack.steps().values()) {
      ofStep.put(step.id(), Set.copyOf(lineage.ancestors(step)));
      for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
        Set<CauseId> ancestors = Set.copyOf(lineage.ancestors(point));
        points.putIfAbsent(point.id(), new At(step, point, point.readingModel(), ancestors));
      }
    }
    for (Step step : pack.steps().values()) {
      step.compares()
          .ifPresent(c -> model(c).ifPresent(model -> pairs.add(new Pair(step.id(), c, model))));
    }
    for (Symptom symptom : pack.symptoms().values()) {
      ofSymptom.put(
          symptom.id(),
          symptom
              .shows()
              .map(o -> Set.copyOf(lineage.ancestors(Lineage.looksAt(o))))
              .orElse(Set.of()));
    }
  }

  private Optional<PairModel> model(Comparison compares) {
    At first = points.get(compares.point());
    At second = points.get(compares.with());
    return first == null || second == null
        ? Optional.empty()
        : compares.model(first.point(), first.model(), second.point(), second.model());
  }

  /**
   * What comparing points shows where both have been read with numbers and neither is off by
   * itself; by one reading of each.
   */
  List<Compared> compared(Map<PointId, ReadingTold> readings) {
    List<Compared> shown = new ArrayList<>();
    for (Pair pair : pairs) {
      ReadingTold one = readings.get(pair.compares().point());
      ReadingTold other = readings.get(pair.compares().with());
      if (isNormalNumber(one) && isNormalNumber(other)) {
        boolean shares = one.sharesSetupWith(other);
        boolean apart = pair.model().speaksForApart(number(one, shares), number(other, shares));
        shown.add(
            new Compared(
                pair.step(),
                apart ? Comparison.DIFFERS : Comparison.ALIKE,
                one.id().compareTo(other.id()) > 0 ? one.id() : other.id()));
      }
    }
    return shown;
  }

  private static boolean isNormalNumber(ReadingTold reading) {
    return reading != null
        && reading.corrected() instanceof ReadingValue.Measured
        && reading.state().equals(StateId.NORMAL);
  }

  private static PairModel.Reading number(ReadingTold reading, boolean sharing) {
    ReadingUncertainty u = reading.u();
    return new PairModel.Reading(
        ((ReadingValue.Measured) reading.corrected()).quantity().si(),
        0,
        sharing ? u.random() : u.combined());
  }

  /** The attempts that the facts tell of. */
  Attempts attempts(List<Told> facts) {
    return Attempts.of(pack, lineage, facts);
  }

  /** Whether an attempt before the fact touches the complaint's function. */
  boolean attemptedBefore(FactId fact, ComplaintId complaint, Attempts attempts) {
    Set<CauseId> ancestors = lineage.ancestors(pack.complaints().get(complaint).event());
    return attempts.made().stream()
        .anyMatch(a -> a.fact().compareTo(fact) < 0 && a.moves(ancestors));
  }

  /**
   * The facts for the rules.
   *
   * @param board the board of the device, where it is known
   * @throws IllegalArgumentException when facts are not in order, or speak of what the pack lacks
   */
  List<Object> read(List<Told> facts, Attempts attempts, Optional<BoardId> board) {
    List<Object> read = new ArrayList<>();
    attempts.made().forEach(a -> read.add(new Attempted(a.fact(), a.step(), a.touched())));
    int last = 0;
    Map<StepId, Integer> times = new HashMap<>();
    for (Told told : facts) {
      if (told.id().number() <= last) {
        throw new IllegalArgumentException(
            "facts must be in order of telling: " + told.id() + " after #" + last);
      }
      last = told.id().number();
      read(told, attempts.epochOf(told.id()), times, board).ifPresent(read::add);
    }
    return read;
  }

  private Optional<Object> read(
      Told told, int epoch, Map<StepId, Integer> times, Optional<BoardId> board) {
    FactId id = told.id();
    Fact fact = told.fact();
    if (fact instanceof Fact.Complained f) {
      known(pack.complaints(), f.complaint());
      return said(id, Topic.Kind.COMPLAINT, f.complaint(), Set.of(), epoch, !f.reported());
    } else if (fact instanceof Fact.SymptomNoted f) {
      known(pack.symptoms(), f.symptom());
      return said(id, Topic.Kind.SYMPTOM, f.symptom(), ofSymptom.get(f.symptom()), epoch, false);
    } else if (fact instanceof Fact.HistorySaid f) {
      known(pack.histories(), f.history());
      return said(id, Topic.Kind.HISTORY_SAID, f.history(), Set.of(), epoch, false);
    } else if (fact instanceof Fact.HistorySeen f) {
      known(pack.histories(), f.history());
      return said(id, Topic.Kind.HISTORY_SEEN, f.history(), Set.of(), epoch, false);
    } else if (fact instanceof Fact.ConsentAnswered f) {
      return said(id, Topic.Kind.CONSENT, f.consent(), Set.of(), epoch, false);
    } else if (fact instanceof Fact.OutcomeSeen f) {
      return Optional.of(outcome(id, f, epoch));
    } else if (fact instanceof Fact.ReadingTaken f) {
      ReadingTold reading = reading(id, f, epoch, board);
      // one of a known-good board tells nothing of the device; but it may have to be said why
      return f.setup().knownGood() && reading.ruledOut().isEmpty()
          ? Optional.empty()
          : Optional.of(reading);
    } else if (fact instanceof Fact.StepDone f) {
      Step step = known(pack.steps(), f.step());
      return Optional.of(
          new Did(id, f.step(), times.merge(f.step(), 1, Integer::sum), step.conditions().bench()));
    } else if (fact instanceof Fact.CouldNotDo f) {
      known(pack.steps(), f.step());
      return Optional.of(new CouldNot(id, f.step(), f.why()));
    } else if (fact instanceof Fact.Checked f) {
      return Optional.of(new CheckTold(id, f));
    } else if (fact instanceof Fact.BenchSet f) {
      known(pack.switches(), f.state().of());
      return Optional.of(new BenchWord(id, f.state(), true));
    }
    return Optional.empty();
  }

  private static Optional<Object> said(
      FactId id, Topic.Kind kind, Id about, Set<CauseId> ancestors, int epoch, boolean denial) {
    return Optional.of(new Said(id, new Topic(kind, about), ancestors, epoch, denial));
  }

  private OutcomeTold outcome(FactId id, Fact.OutcomeSeen seen, int epoch) {
    Step step = known(pack.steps(), seen.step());
    List<OutcomeId> outcomes = step.shows().map(Observation::outcomes).orElse(List.of());
    if (!outcomes.contains(seen.outcome())) {
      throw new IllegalArgumentException(
          "outcome of " + step.id() + " must be one of " + outcomes + ": " + seen.outcome());
    }
    Optional<Complaint> proves = step.proves().map(pack.complaints()::get);
    // Closing the device changes what such a test looks at, so it may come out differently then.
    boolean alwaysTheSame =
        step.copies() == 1 && !proves.map(Complaint::countsClosed).orElse(false);
    return new OutcomeTold(
        id,
        new Topic(Topic.Kind.OUTCOME, step.id()),
        ofStep.get(step.id()),
        epoch,
        step.id(),
        seen.outcome(),
        step.conditions().bench(),
        alwaysTheSame,
        step.proves(),
        proves.isPresent() && seen.outcome().equals(outcomes.get(0)));
  }

  private ReadingTold reading(
      FactId id, Fact.ReadingTaken taken, int epoch, Optional<BoardId> board) {
    At at = points.get(taken.point());
    if (at == null) {
      throw new IllegalArgumentException("point must be one of the pack: " + taken.point());
    }
    ReadingUncertainty of = ReadingUncertainty.of(pack, at.step, at.point, taken);
    double u = of.combined();
    ReadingValue value = ReadingCorrection.of(pack, at.step, at.point, taken).value();
    int state = at.model.classify(value, u);
    return new ReadingTold(
        id,
        new Topic(Topic.Kind.READING, taken.point()),
        at.ancestors,
        epoch,
        at.step.id(),
        taken,
        value,
        SharedSetup.of(at.step, taken),
        of,
        ReadingUncertainty.count(pack, at.step, at.point, taken),
        state == 0 ? StateId.NORMAL : at.point.states().get(state - 1).id(),
        at.model.nearLimit(value, u),
        at.step.conditions().bench(),
        ruledOut(at, taken.setup(), board));
  }

  private static Optional<String> ruledOut(At at, Fact.Setup setup, Optional<BoardId> board) {
    Step.PinTable table = at.step.pinTable().orElseThrow();
    Optional<BoardId> of = setup.knownGood() ? setup.board().or(() -> board) : board;
    if (differs(setup.board(), board)) {
      return Optional.of(
          "it was taken on a known-good board "
              + setup.board().get()
              + ", and this device is "
              + board.get());
    }
    if (of.isPresent() && !at.point.boards().isEmpty() && !at.point.boards().contains(of.get())) {
      return Optional.of(
          "the point is one of board "
              + at.point.boards().stream().map(BoardId::value).collect(joining(", "))
              + ", and this is "
              + of.get());
    }
    if (differs(setup.leads(), table.leads())) {
      return Optional.of(
          "it was taken with the leads "
              + setup.leads().get()
              + "; the step says "
              + table.leads().get());
    }
    if (differs(setup.instrument(), table.instrument())) {
      return Optional.of(
          "it was taken with "
              + setup.instrument().get()
              + "; the step says "
              + table.instrument().get());
    }
    return Optional.empty();
  }

  private static boolean differs(Optional<?> told, Optional<?> stated) {
    return told.isPresent() && stated.isPresent() && !told.equals(stated);
  }

  private static <K extends Id, V> V known(Map<K, V> all, K id) {
    V found = all.get(id);
    if (found == null) {
      throw new IllegalArgumentException("facts must speak of what the pack has: " + id.value());
    }
    return found;
  }
}
