package org.faultwright.rules;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Situation;
import org.faultwright.casefile.Told;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.rules.facts.Accompanies;
import org.faultwright.rules.facts.Bench;
import org.faultwright.rules.facts.BenchWord;
import org.faultwright.rules.facts.Candidate;
import org.faultwright.rules.facts.Composed;
import org.faultwright.rules.facts.Discounted;
import org.faultwright.rules.facts.Lifted;
import org.faultwright.rules.facts.Marked;
import org.faultwright.rules.facts.Outranks;
import org.faultwright.rules.facts.Raised;
import org.faultwright.rules.facts.Stopped;
import org.faultwright.rules.facts.Subject;
import org.faultwright.rules.facts.WayTo;
import org.kie.api.runtime.KieSession;

/** What the rules have concluded, gathered from the working memory and put in order. */
final class Concluded {

  private static final Guard FREE = new Guard(new Condition.Always());

  private final Map<FactId, List<Discounted>> discounted = new HashMap<>();
  private final Map<FactId, List<Marked>> marked = new HashMap<>();
  private final List<BenchWord> benchWords = new ArrayList<>();
  private final Set<Conflict> conflicts = new LinkedHashSet<>();
  private final List<HoldInForce> holds = new ArrayList<>();
  private final Set<HoldId> raised = new LinkedHashSet<>();
  private final Set<HoldId> lifted = new LinkedHashSet<>();
  private final List<Alarm> alarms = new ArrayList<>();
  private final Map<Subject, List<Blocked>> stopped = new HashMap<>();
  private final Map<Subject, Guard> guards = new HashMap<>();
  private final Map<Subject, WayTo> ways = new HashMap<>();
  private final Map<StepId, Set<CautionId>> cautions = new HashMap<>();
  private final List<Candidate> candidates = new ArrayList<>();
  private final Map<Candidate, Set<Candidate>> outranked = new HashMap<>();

  private Concluded() {}

  static Concluded in(KieSession session) {
    Concluded all = new Concluded();
    for (Object fact : session.getObjects()) {
      all.add(fact);
    }
    return all;
  }

  private void add(Object fact) {
    if (fact instanceof Stopped f) {
      stopped.computeIfAbsent(f.subject(), s -> new ArrayList<>()).add(f.blocked());
    } else if (fact instanceof Composed f) {
      guards.put(f.subject(), f.guard());
    } else if (fact instanceof WayTo f) {
      ways.put(f.subject(), f);
    } else if (fact instanceof Accompanies f) {
      cautions.computeIfAbsent(f.step(), s -> new LinkedHashSet<>()).add(f.caution());
    } else if (fact instanceof BenchWord f) {
      benchWords.add(f);
    } else if (fact instanceof Discounted f) {
      discounted.computeIfAbsent(f.id(), s -> new ArrayList<>()).add(f);
    } else if (fact instanceof Marked f) {
      marked.computeIfAbsent(f.id(), s -> new ArrayList<>()).add(f);
    } else if (fact instanceof Conflict f) {
      conflicts.add(f);
    } else if (fact instanceof HoldInForce f) {
      holds.add(f);
    } else if (fact instanceof Raised f) {
      raised.add(f.hold());
    } else if (fact instanceof Lifted f) {
      lifted.add(f.hold());
    } else if (fact instanceof Alarm f) {
      alarms.add(f);
    } else if (fact instanceof Candidate f) {
      candidates.add(f);
    } else if (fact instanceof Outranks f) {
      outranked.computeIfAbsent(f.loser(), s -> new LinkedHashSet<>()).add(f.winner());
    }
  }

  List<BenchWord> benchWords() {
    return benchWords;
  }

  /** The standing of each fact. */
  List<Standing> standings(List<Told> facts) {
    List<Standing> found = new ArrayList<>();
    for (Told told : facts) {
      found.add(standing(told));
    }
    return found;
  }

  private Standing standing(Told told) {
    List<Discounted> against = discounted.getOrDefault(told.id(), List.of());
    if (!against.isEmpty()) {
      List<Discounted> sorted =
          against.stream()
              .sorted(Comparator.comparing(Discounted::verdict).thenComparing(Discounted::words))
              .toList();
      Standing.Verdict verdict = sorted.get(0).verdict();
      return new Standing(
          told, verdict, Set.of(), sorted.stream().map(Discounted::words).distinct().toList());
    }
    List<Marked> marks =
        marked.getOrDefault(told.id(), List.of()).stream()
            .sorted(Comparator.comparing(Marked::mark))
            .toList();
    return new Standing(
        told,
        Standing.Verdict.STANDS,
        new LinkedHashSet<>(marks.stream().map(Marked::mark).toList()),
        marks.stream().map(Marked::words).toList());
  }

  /** What the first firing found. */
  Findings findings(
      PackRules rules, List<Told> facts, Bench bench, Situation situation, Attempts attempts) {
    Map<StepId, StepStatus> steps = new LinkedHashMap<>();
    rules.pack().steps().forEach((id, step) -> steps.put(id, status(rules, step)));
    Map<BenchState, TurnStatus> turns = new LinkedHashMap<>();
    rules
        .ways()
        .turns()
        .keySet()
        .forEach(
            t -> turns.put(t, new TurnStatus(t, guard(Subject.turn(t)), blocked(Subject.turn(t)))));
    List<HoldId> holdOrder = new ArrayList<>(rules.pack().holds().keySet());
    Set<HoldId> heldOff = new LinkedHashSet<>(holdOrder);
    heldOff.retainAll(raised);
    heldOff.retainAll(lifted);
    return new Findings(
        standings(facts),
        sortedConflicts(),
        holds.stream()
            .sorted(Comparator.comparingInt(h -> holdOrder.indexOf(h.hold().id())))
            .toList(),
        heldOff,
        alarms.stream()
            .sorted(
                Comparator.<Alarm>comparingInt(a -> holdOrder.indexOf(a.hold()))
                    .thenComparing(a -> a.ends().of().value()))
            .toList(),
        steps,
        turns,
        bench.positions(),
        bench.closed(),
        situation,
        attempts);
  }

  /** What the second firing found. */
  AdviceSet advice(PackRules rules, Findings findings) {
    List<Advice> all = new AdviceOrder(rules, findings).of(candidates, outranked);
    return new AdviceSet(all.get(0), all.subList(1, all.size()), sortedConflicts());
  }

  private StepStatus status(PackRules rules, Step step) {
    Subject subject = new Subject.OfStep(step.id());
    WayTo way = ways.get(subject);
    Set<CautionId> beside = cautions.getOrDefault(step.id(), Set.of());
    Set<CautionId> inOrder = new LinkedHashSet<>(step.cautions());
    inOrder.addAll(rules.pack().cautions().keySet());
    inOrder.retainAll(beside);
    return new StepStatus(
        step.id(),
        guard(subject),
        blocked(subject),
        way == null ? List.of() : way.turns(),
        inOrder);
  }

  private Guard guard(Subject subject) {
    return guards.getOrDefault(subject, FREE);
  }

  private List<Blocked> blocked(Subject subject) {
    return stopped.getOrDefault(subject, List.of()).stream().distinct().sorted().toList();
  }

  private List<Conflict> sortedConflicts() {
    return conflicts.stream()
        .sorted(
            Comparator.comparing(Conflict::kind)
                .thenComparing(c -> c.facts().toString())
                .thenComparing(Conflict::words))
        .toList();
  }
}
