package org.faultwright.rules.facts;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Situation;
import org.faultwright.casefile.Truth;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Id;
import org.faultwright.pack.Ordered;

/** Which facts say what a situation holds. */
public final class Grounds {

  /** What a condition can ask about. */
  public enum Source {
    /** A symptom. */
    SYMPTOM,
    /** The outcome of a step. */
    OUTCOME,
    /** The reading at a point. */
    READING,
    /** History. */
    HISTORY,
    /** A switch of the bench. */
    BENCH,
    /** That a step was carried out. */
    DONE,
    /** Whether a function is lost. */
    FUNCTION,
    /** What the customer agrees to. */
    CONSENT
  }

  private record Ground(Key key, FactId fact) {}

  private record Key(Source source, Id about) {}

  private final Map<Key, FactId> facts = new LinkedHashMap<>();

  /** Notes which fact says something; a later note about the same thing replaces it. */
  public void note(Source source, Id about, FactId fact) {
    facts.put(new Key(source, about), fact);
  }

  /** The facts on which a condition rests, in order of telling. */
  Set<FactId> of(Condition condition, Situation situation) {
    List<Ground> found = new ArrayList<>();
    collect(condition, situation, found);
    Set<FactId> sorted = new TreeSet<>();
    found.forEach(g -> sorted.add(g.fact()));
    return Ordered.copy(sorted);
  }

  /** Whether something found or done is among them. */
  boolean haveFinding(Condition condition, Situation situation) {
    List<Ground> found = new ArrayList<>();
    collect(condition, situation, found);
    return found.stream()
        .map(g -> g.key().source())
        .anyMatch(s -> s != Source.BENCH && s != Source.CONSENT);
  }

  private void collect(Condition condition, Situation s, List<Ground> found) {
    if (condition instanceof Condition.All all) {
      all.parts().forEach(p -> collect(p, s, found));
    } else if (condition instanceof Condition.Any any) {
      any.parts().stream()
          .filter(p -> Guard.evaluate(p, s) == Truth.TRUE)
          .forEach(p -> collect(p, s, found));
    } else if (condition instanceof Condition.Not not) {
      collect(not.part(), s, found);
    } else if (condition instanceof Condition.Unless unless) {
      collect(unless.part(), s, found);
    } else if (condition instanceof Condition.SymptomIs c) {
      add(Source.SYMPTOM, c.symptom(), found);
    } else if (condition instanceof Condition.OutcomeIs c) {
      add(Source.OUTCOME, c.step(), found);
    } else if (condition instanceof Condition.ReadingIs c) {
      add(Source.READING, c.point(), found);
    } else if (condition instanceof Condition.HistoryIs c) {
      add(Source.HISTORY, c.history(), found);
    } else if (condition instanceof Condition.BenchIs c) {
      add(Source.BENCH, c.state().of(), found);
    } else if (condition instanceof Condition.Done c) {
      add(Source.DONE, c.step(), found);
    } else if (condition instanceof Condition.Reproduced c) {
      add(Source.FUNCTION, c.complaint(), found);
    } else if (condition instanceof Condition.Works c) {
      add(Source.FUNCTION, c.complaint(), found);
    } else if (condition instanceof Condition.Consented c) {
      add(Source.CONSENT, c.consent(), found);
    }
  }

  private void add(Source source, Id about, List<Ground> found) {
    Key key = new Key(source, about);
    FactId fact = facts.get(key);
    if (fact != null) {
      found.add(new Ground(key, fact));
    }
  }
}
