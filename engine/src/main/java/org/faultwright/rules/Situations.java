package org.faultwright.rules;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.rules.facts.BenchWord;
import org.faultwright.rules.facts.Grounds;
import org.faultwright.rules.facts.Grounds.Source;
import org.faultwright.rules.facts.Now;
import org.faultwright.rules.facts.OutcomeTold;
import org.faultwright.rules.facts.Proof;
import org.faultwright.rules.facts.ReadingTold;

/** Puts together, from the facts that stand, what conditions ask about. Used for one moment. */
final class Situations {

  private final PackRules rules;
  private final Intake intake;
  private final Attempts attempts;
  private final TreeMap<FactId, List<BenchWord>> benchWords = new TreeMap<>();
  private final Grounds grounds = new Grounds();

  private final Map<SymptomId, SymptomValue> symptoms = new LinkedHashMap<>();
  private final Map<StepId, OutcomeId> outcomes = new LinkedHashMap<>();
  private final Map<StepId, OutcomeId> anyOutcomes = new LinkedHashMap<>();
  private final Map<PointId, StateId> readings = new LinkedHashMap<>();
  private final Map<PointId, StateId> anyReadings = new LinkedHashMap<>();
  private final Map<PointId, ReadingTold> lastReadings = new HashMap<>();
  private final Map<PointId, ReadingTold> anyLastReadings = new HashMap<>();
  private final Map<HistoryId, Boolean> histories = new LinkedHashMap<>();
  private final Set<StepId> done = new LinkedHashSet<>();
  private final Map<ComplaintId, Boolean> lost = new LinkedHashMap<>();
  private final Map<ConsentId, Boolean> consents = new LinkedHashMap<>();
  private final Map<ComplaintId, Proof> proofs = new LinkedHashMap<>();
  private final Set<ComplaintId> reported = new LinkedHashSet<>();

  Situations(PackRules rules, Intake intake, Attempts attempts, Collection<BenchWord> words) {
    this.rules = rules;
    this.intake = intake;
    this.attempts = attempts;
    words.forEach(w -> benchWords.computeIfAbsent(w.id(), id -> new ArrayList<>()).add(w));
    intake.consented().forEach(c -> consents.put(c, true));
    intake.refused().forEach(c -> consents.put(c, false));
  }

  /**
   * What conditions ask about.
   *
   * @param standings the facts in order of telling
   * @param read the same as the rules see them
   */
  Now now(List<Standing> standings, Collection<Object> read) {
    Map<FactId, OutcomeTold> outcomesTold = new LinkedHashMap<>();
    Map<FactId, ReadingTold> readingsTold = new LinkedHashMap<>();
    for (Object each : read) {
      if (each instanceof OutcomeTold o) {
        outcomesTold.put(o.id(), o);
      } else if (each instanceof ReadingTold r) {
        readingsTold.put(r.id(), r);
      }
    }
    for (Standing standing : standings) {
      if (!standing.counts()) {
        continue;
      }
      OutcomeTold outcome = outcomesTold.get(standing.id());
      ReadingTold reading = readingsTold.get(standing.id());
      if (outcome != null) {
        add(outcome, standing.countsNow());
      } else if (reading != null) {
        add(reading, standing.countsNow());
      } else {
        add(standing.told().fact(), standing.id());
      }
    }
    addCompared(lastReadings, outcomes);
    addCompared(anyLastReadings, anyOutcomes);
    proofs.forEach(
        (complaint, proof) -> {
          lost.put(complaint, proof.lost());
          grounds.note(Source.FUNCTION, complaint, proof.fact());
        });
    Set<SwitchId> on = new LinkedHashSet<>();
    bench().stream().filter(BenchState::on).forEach(s -> on.add(s.of()));
    return new Now(
        situation(outcomes, readings, on),
        situation(anyOutcomes, anyReadings, on),
        grounds,
        proofs,
        reported);
  }

  private Situation situation(
      Map<StepId, OutcomeId> outcomes, Map<PointId, StateId> readings, Set<SwitchId> on) {
    return new Situation(
        symptoms,
        outcomes,
        readings,
        histories,
        on,
        done,
        lost,
        consents,
        intake.goal(),
        intake.board());
  }

  private void add(OutcomeTold outcome, boolean now) {
    StepId step = outcome.step();
    anyOutcomes.put(step, outcome.outcome());
    grounds.note(Source.OUTCOME, step, outcome.id());
    done(step, outcome.id());
    if (!now) {
      return;
    }
    outcomes.put(step, outcome.outcome());
    outcome
        .proves()
        .ifPresent(
            complaint ->
                proofs.put(
                    complaint,
                    new Proof(
                        outcome.id(),
                        outcome.lost(),
                        closedAt(outcome.id()),
                        rules.reading().attemptedBefore(outcome.id(), complaint, attempts))));
  }

  private void add(ReadingTold reading, boolean now) {
    PointId point = reading.taken().point();
    anyReadings.put(point, reading.state());
    anyLastReadings.put(point, reading);
    grounds.note(Source.READING, point, reading.id());
    done(reading.step(), reading.id());
    if (now) {
      readings.put(point, reading.state());
      lastReadings.put(point, reading);
    }
  }

  /** Readings of two points that are compared say what comparing them shows. */
  private void addCompared(Map<PointId, ReadingTold> of, Map<StepId, OutcomeId> outcomes) {
    for (CaseReading.Compared compared : rules.reading().compared(of)) {
      outcomes.put(compared.step(), compared.outcome());
      grounds.note(Source.OUTCOME, compared.step(), compared.by());
    }
  }

  private void add(Fact fact, FactId id) {
    if (fact instanceof Fact.SymptomNoted f) {
      symptoms.put(f.symptom(), f.value());
      grounds.note(Source.SYMPTOM, f.symptom(), id);
    } else if (fact instanceof Fact.HistorySaid f) {
      history(f.history(), f.happened(), id);
    } else if (fact instanceof Fact.HistorySeen f) {
      history(f.history(), f.traces(), id);
    } else if (fact instanceof Fact.Complained f) {
      lost.put(f.complaint(), f.reported());
      if (f.reported()) {
        reported.add(f.complaint());
      }
      grounds.note(Source.FUNCTION, f.complaint(), id);
    } else if (fact instanceof Fact.ConsentAnswered f) {
      consents.put(f.consent(), f.given());
      grounds.note(Source.CONSENT, f.consent(), id);
    } else if (fact instanceof Fact.StepDone f) {
      done(f.step(), id);
    } else if (fact instanceof Fact.BenchSet f) {
      grounds.note(Source.BENCH, f.state().of(), id);
    }
  }

  /** It happened when either the customer says so or we see traces of it. */
  private void history(HistoryId history, boolean happened, FactId id) {
    if (happened || !histories.containsKey(history)) {
      histories.put(history, happened);
      grounds.note(Source.HISTORY, history, id);
    }
  }

  private void done(StepId step, FactId id) {
    if (done.add(step)) {
      grounds.note(Source.DONE, step, id);
    }
  }

  /** The position of each switch now. */
  Set<BenchState> bench() {
    return benchAt(new FactId(Integer.MAX_VALUE));
  }

  private boolean closedAt(FactId fact) {
    return rules.ways().open(benchAt(fact)).isEmpty();
  }

  private Set<BenchState> benchAt(FactId fact) {
    Map<SwitchId, Boolean> on = new LinkedHashMap<>();
    for (Switch each : rules.pack().switches().values()) {
      on.put(each.id(), each.startsOn());
    }
    benchWords
        .headMap(fact, true)
        .values()
        .forEach(words -> words.forEach(w -> on.put(w.state().of(), w.state().on())));
    Set<BenchState> positions = new LinkedHashSet<>();
    on.forEach((of, state) -> positions.add(new BenchState(of, state)));
    return positions;
  }
}
