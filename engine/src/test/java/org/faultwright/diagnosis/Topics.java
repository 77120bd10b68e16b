package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.faultwright.casefile.Fact;
import org.faultwright.pack.Pack;

/** What facts are about: of two about one thing the later may replace the earlier. */
final class Topics {

  private Topics() {}

  /** What a fact is about. */
  static Object of(Fact fact) {
    if (fact instanceof Fact.Complained f) {
      return f.complaint();
    } else if (fact instanceof Fact.SymptomNoted f) {
      return f.symptom();
    } else if (fact instanceof Fact.HistorySaid f) {
      return List.of("said", f.history());
    } else if (fact instanceof Fact.HistorySeen f) {
      return List.of("seen", f.history());
    } else if (fact instanceof Fact.OutcomeSeen f) {
      return f.step();
    } else if (fact instanceof Fact.CouldNotDo f) {
      return f.step();
    } else if (fact instanceof Fact.ReadingTaken f) {
      return f.point();
    } else if (fact instanceof Fact.StepDone f) {
      return f.step();
    } else if (fact instanceof Fact.BenchSet f) {
      return f.state().of();
    } else if (fact instanceof Fact.ConsentAnswered f) {
      return f.consent();
    }
    return "remark";
  }

  /** The facts of each epoch in another order; those about one thing keep theirs. */
  static List<Fact> shuffledBetweenAttempts(Pack pack, List<Fact> facts, Random random) {
    List<Fact> all = new ArrayList<>();
    List<Fact> between = new ArrayList<>();
    for (Fact fact : facts) {
      if (fact instanceof Fact.StepDone done && pack.steps().get(done.step()).isAttempt()) {
        all.addAll(shuffled(between, random));
        between.clear();
        all.add(fact);
      } else {
        between.add(fact);
      }
    }
    all.addAll(shuffled(between, random));
    return all;
  }

  private static List<Fact> shuffled(List<Fact> facts, Random random) {
    Map<Object, List<Fact>> byTopic = new LinkedHashMap<>();
    facts.forEach(f -> byTopic.computeIfAbsent(of(f), t -> new ArrayList<>()).add(f));
    List<Object> places = new ArrayList<>(facts.stream().map(Topics::of).toList());
    Collections.shuffle(places, random);
    return places.stream().map(t -> byTopic.get(t).remove(0)).toList();
  }
}
