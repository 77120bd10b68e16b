package org.faultwright.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Id;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;

/** The facts of a case, sorted by what they look at. */
final class Evidence {

  /**
   * All looking at a step or a symptom between two attempts that touch what it depends on.
   *
   * @param source the step or symptom
   * @param epoch the epoch that the earlier of the two attempts began, or 0
   */
  record Sitting(Id source, int epoch) {}

  /** What was seen in one sitting. */
  static final class Seen {
    /** In the order in which they were told. */
    final List<OutcomeId> outcomes = new ArrayList<>();

    /** Whether a first look noticed nothing. */
    boolean notSeen;
  }

  /**
   * All readings of a point between two attempts that touch what it depends on.
   *
   * @param epoch the epoch that the earlier of the two attempts began, or 0
   * @param carryingOut the sitting of the step whose first carrying out the readings belong to
   * @param knownGood whether they were taken on another board, on which the point is normal
   */
  record ReadingsOf(Point point, int epoch, Sitting carryingOut, boolean knownGood) {}

  private final Pack pack;
  final Ancestry ancestry;
  final Timeline timeline;
  final Map<ComplaintId, Set<Boolean>> reports = new LinkedHashMap<>();
  final Map<HistoryId, Set<Boolean>> said = new LinkedHashMap<>();
  final Map<HistoryId, Set<Boolean>> traces = new LinkedHashMap<>();
  final Map<Sitting, Seen> sittings = new LinkedHashMap<>();
  final Map<ReadingsOf, List<Fact.ReadingTaken>> readings = new LinkedHashMap<>();

  Evidence(Pack pack, List<Told> facts) {
    this.pack = pack;
    this.ancestry = new Ancestry(pack);
    this.timeline = new Timeline(pack);
    facts.forEach(told -> add(told.fact()));
    pairs().stream()
        .filter(p -> !p.first().knownGood() && hasNumbers(p.first()) && hasNumbers(p.second()))
        .forEach(p -> sittings.remove(p.sitting()));
  }

  /**
   * Two points that are compared, one of them at least with numbers that can be.
   *
   * @param sitting of the step that compares them
   */
  record Pair(Step step, ReadingsOf first, ReadingsOf second, Sitting sitting) {}

  /** What is compared. */
  List<Pair> pairs() {
    List<Pair> found = new ArrayList<>();
    for (Step step : pack.steps().values()) {
      step.compares()
          .ifPresent(
              c ->
                  readings.keySet().stream()
                      .filter(of -> c.isAbout(of.point().id()) && hasNumbers(of))
                      .map(of -> pair(step, of))
                      .filter(pair -> !found.contains(pair))
                      .forEach(found::add));
    }
    return found;
  }

  private Pair pair(Step step, ReadingsOf of) {
    return new Pair(
        step,
        like(of, step.compares().orElseThrow().point()),
        like(of, step.compares().orElseThrow().with()),
        sitting(step.id(), of.epoch()));
  }

  /** The readings of another point in the same epoch, on the same board. */
  private ReadingsOf like(ReadingsOf of, PointId other) {
    Step step = stepOf(other);
    Point point = points(step).stream().filter(p -> p.id().equals(other)).findFirst().orElseThrow();
    return new ReadingsOf(
        point,
        of.epoch(),
        of.knownGood() ? new Sitting(step.id(), 0) : sitting(step.id(), of.epoch()),
        of.knownGood());
  }

  /** Whether there are readings, all of them numbers but for those with a name. */
  boolean hasNumbers(ReadingsOf of) {
    List<ReadingValue> values =
        readings.getOrDefault(of, List.of()).stream().map(Fact.ReadingTaken::value).toList();
    return values.stream().anyMatch(ReadingValue.Measured.class::isInstance)
        && values.stream().noneMatch(ReadingValue.OverRange.class::isInstance);
  }

  private void add(Fact fact) {
    if (fact instanceof Fact.Complained f) {
      reports.computeIfAbsent(f.complaint(), c -> new LinkedHashSet<>()).add(f.reported());
    } else if (fact instanceof Fact.HistorySaid f) {
      said.computeIfAbsent(f.history(), h -> new LinkedHashSet<>()).add(f.happened());
    } else if (fact instanceof Fact.HistorySeen f) {
      traces.computeIfAbsent(f.history(), h -> new LinkedHashSet<>()).add(f.traces());
    } else if (fact instanceof Fact.SymptomNoted f) {
      noted(pack.symptoms().get(f.symptom()), f.value());
    } else if (fact instanceof Fact.OutcomeSeen f) {
      seen(f.step()).outcomes.add(f.outcome());
    } else if (fact instanceof Fact.ReadingTaken f) {
      ReadingsOf now = readingsNow(f.point());
      ReadingsOf of =
          f.setup().knownGood()
              ? new ReadingsOf(now.point(), 0, new Sitting(now.carryingOut().source(), 0), true)
              : now;
      readings.computeIfAbsent(of, r -> new ArrayList<>()).add(f);
    } else if (fact instanceof Fact.StepDone f) {
      Step step = pack.steps().get(f.step());
      if (step.isAttempt()) {
        timeline.add(step);
      }
    }
  }

  private void noted(Symptom symptom, SymptomValue value) {
    if (symptom.shows().isEmpty() || value == SymptomValue.NOT_KNOWN) {
      return;
    }
    Seen seen = seen(symptom.id());
    switch (value) {
      case PRESENT, SOMETIMES -> seen.outcomes.add(positive(symptom.shows().get()));
      case ABSENT -> seen.outcomes.add(negative(symptom.shows().get()));
      case NOT_SEEN -> seen.notSeen = true;
      default -> throw new AssertionError(value);
    }
  }

  /** The outcome that says that a symptom is present. */
  static OutcomeId positive(Observation shows) {
    return twoOutcomes(shows).get(0);
  }

  /** The outcome that says that a symptom is absent. */
  static OutcomeId negative(Observation shows) {
    return twoOutcomes(shows).get(1);
  }

  private static List<OutcomeId> twoOutcomes(Observation shows) {
    if (shows.outcomes().size() != 2) {
      throw new IllegalArgumentException("a symptom must have two outcomes: " + shows.outcomes());
    }
    return shows.outcomes();
  }

  private Seen seen(Id source) {
    return sittings.computeIfAbsent(sittingNow(source), s -> new Seen());
  }

  /** The sitting that a look at the source would belong to if it were taken now. */
  Sitting sittingNow(Id source) {
    return sitting(source, timeline.now());
  }

  private Sitting sitting(Id source, int epoch) {
    return new Sitting(source, timeline.lastTouched(ancestry.ofSource(source), epoch));
  }

  /** What a reading of a point would belong to if it were taken now. */
  ReadingsOf readingsNow(PointId id) {
    Step step = stepOf(id);
    Point point = points(step).stream().filter(p -> p.id().equals(id)).findFirst().orElseThrow();
    int epoch = timeline.lastTouched(ancestry.ofPoint(point), timeline.now());
    return new ReadingsOf(point, epoch, sitting(step.id(), epoch), false);
  }

  private Step stepOf(PointId point) {
    for (Map.Entry<StepId, Step> entry : pack.steps().entrySet()) {
      if (points(entry.getValue()).stream().anyMatch(p -> p.id().equals(point))) {
        return entry.getValue();
      }
    }
    throw new IllegalArgumentException("no step reads the point " + point);
  }

  private static List<Point> points(Step step) {
    return step.pinTable().map(Step.PinTable::points).orElse(List.of());
  }

  /** The observation behind a source. */
  Observation shows(Id source) {
    return source instanceof SymptomId symptom
        ? pack.symptoms().get(symptom).shows().orElseThrow()
        : pack.steps().get((StepId) source).shows().orElseThrow();
  }

  /** P(a repeat of the source copies the first outcome). */
  double pCopies(Id source) {
    return source instanceof StepId step ? pack.steps().get(step).copies() : 1;
  }
}
