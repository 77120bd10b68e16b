package org.faultwright.compile;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomValue;

/** A fact bound to the observation that it is evidence of, for ever. */
sealed interface Bound {

  /** The fact. */
  FactId fact();

  /** The customer's report or denial. */
  record Report(FactId fact, ComplaintId complaint, boolean reported) implements Bound {}

  /** A yes or no about history. */
  record Witness(FactId fact, HistoryId history, boolean said, boolean yes) implements Bound {}

  /** A symptom. */
  record SymptomAt(FactId fact, Slot slot, SymptomValue value) implements Bound {}

  /** The first outcome of a step in its slot. */
  record OutcomeAt(FactId fact, Slot slot, OutcomeId outcome) implements Bound {}

  /**
   * A repeat of a step.
   *
   * @param slot the fresh observation that the repeat may be, instead of a copy
   * @param first the outcome that it may copy
   * @param pCopies kappa
   */
  record RepeatAt(FactId fact, Slot slot, OutcomeId outcome, OutcomeId first, double pCopies)
      implements Bound {}

  /**
   * A reading.
   *
   * @param comparison the step that compares the point with another one
   */
  record ReadingAt(
      FactId fact,
      Slot slot,
      Step step,
      Point point,
      Fact.ReadingTaken reading,
      Optional<Step> comparison)
      implements Bound {

    /** The observation that the comparison is, in the epoch of the reading. */
    Optional<Slot> compared() {
      return comparison.map(c -> new Slot(c.id(), slot.epoch(), 0));
    }
  }

  /**
   * A reading on a known-good board, where the point is known to be normal: it tells of the
   * instrument.
   */
  record KnownGoodAt(
      FactId fact, Step step, Point point, Fact.ReadingTaken reading, Optional<Step> comparison)
      implements Bound {}

  /**
   * The facts of a case with what they are bound to.
   *
   * @param first the outcome of the first observation in each slot, for steps observed more than
   *     once
   * @param repeats how often each slot has been observed
   */
  record Facts(
      Timeline timeline,
      List<Bound> bound,
      Map<Slot, OutcomeId> first,
      Map<Slot, Integer> repeats) {

    /** Walks the facts in order. */
    static Facts of(Pack pack, Lineage lineage, List<Told> told) {
      List<StepId> attempts = new ArrayList<>();
      for (Told t : told) {
        if (t.fact() instanceof Fact.StepDone d && pack.steps().get(d.step()).isAttempt()) {
          attempts.add(d.step());
        }
      }
      Facts facts =
          new Facts(
              Timeline.of(pack, lineage, attempts),
              new ArrayList<>(),
              new LinkedHashMap<>(),
              new LinkedHashMap<>());
      int epoch = 0;
      for (Told t : told) {
        if (t.fact() instanceof Fact.StepDone d && pack.steps().get(d.step()).isAttempt()) {
          epoch++;
        } else {
          facts.bind(pack, lineage, t, epoch).ifPresent(facts.bound::add);
        }
      }
      facts.dropWhatNumbersSay();
      return facts;
    }

    /** Where both points that a step compares were read, the numbers are what it shows. */
    private void dropWhatNumbersSay() {
      Map<Slot, Set<PointId>> read = new LinkedHashMap<>();
      Set<Slot> beyond = new LinkedHashSet<>();
      for (Bound b : bound) {
        if (b instanceof ReadingAt r && r.compared().isPresent()) {
          Slot slot = r.compared().get();
          if (r.reading().value() instanceof ReadingValue.Measured) {
            read.computeIfAbsent(slot, s -> new LinkedHashSet<>()).add(r.point().id());
          } else if (r.reading().value() instanceof ReadingValue.OverRange) {
            beyond.add(slot);
          }
        }
      }
      read.keySet().removeAll(beyond);
      read.values().removeIf(points -> points.size() < 2);
      bound.removeIf(
          b ->
              b instanceof OutcomeAt o && read.containsKey(o.slot())
                  || b instanceof RepeatAt r
                      && read.containsKey(new Slot(r.slot().what(), r.slot().epoch(), 0)));
      first.keySet().removeAll(read.keySet());
      repeats.keySet().removeAll(read.keySet());
    }

    private Optional<Bound> bind(Pack pack, Lineage lineage, Told told, int epoch) {
      FactId id = told.id();
      Fact fact = told.fact();
      if (fact instanceof Fact.Complained f) {
        return Optional.of(new Report(id, f.complaint(), f.reported()));
      } else if (fact instanceof Fact.HistorySaid f) {
        return Optional.of(new Witness(id, f.history(), true, f.happened()));
      } else if (fact instanceof Fact.HistorySeen f) {
        return Optional.of(new Witness(id, f.history(), false, f.traces()));
      } else if (fact instanceof Fact.SymptomNoted f && f.value() != SymptomValue.NOT_KNOWN) {
        return pack.symptoms()
            .get(f.symptom())
            .shows()
            .map(
                shows -> {
                  Set<CauseId> ancestors = lineage.ancestors(Lineage.looksAt(shows));
                  return new SymptomAt(
                      id, new Slot(f.symptom(), timeline.settled(ancestors, epoch), 0), f.value());
                });
      } else if (fact instanceof Fact.OutcomeSeen f) {
        return Optional.of(outcome(pack.steps().get(f.step()), lineage, id, f, epoch));
      } else if (fact instanceof Fact.ReadingTaken f) {
        return reading(pack, lineage, id, f, epoch);
      }
      return Optional.empty();
    }

    private Bound outcome(Step step, Lineage lineage, FactId id, Fact.OutcomeSeen seen, int epoch) {
      Slot slot = new Slot(step.id(), timeline.settled(lineage.ancestors(step), epoch), 0);
      int n = repeats.merge(slot, 1, Integer::sum) - 1;
      OutcomeId earlier = first.putIfAbsent(slot, seen.outcome());
      return earlier == null
          ? new OutcomeAt(id, slot, seen.outcome())
          : new RepeatAt(
              id, new Slot(slot.what(), slot.epoch(), n), seen.outcome(), earlier, step.copies());
    }

    private Optional<Bound> reading(
        Pack pack, Lineage lineage, FactId id, Fact.ReadingTaken taken, int epoch) {
      for (Step step : pack.steps().values()) {
        for (Point point : step.pinTable().map(Step.PinTable::points).orElse(List.of())) {
          if (point.id().equals(taken.point())) {
            if (taken.setup().knownGood()) {
              return Optional.of(
                  new KnownGoodAt(id, step, point, taken, lineage.comparisonOf(point.id())));
            }
            int settled = timeline.settled(lineage.ancestors(point), epoch);
            return Optional.of(
                new ReadingAt(
                    id,
                    new Slot(point.id(), settled, 0),
                    step,
                    point,
                    taken,
                    lineage.comparisonOf(point.id())));
          }
        }
      }
      throw new IllegalArgumentException("point must be one of the pack: " + taken.point());
    }
  }
}
