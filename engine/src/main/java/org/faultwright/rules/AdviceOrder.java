package org.faultwright.rules;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.casefile.FactId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.StepId;
import org.faultwright.rules.facts.Candidate;

/** Puts candidates in the order that the rules gave them, and makes advice of them. */
final class AdviceOrder {

  private record Same(Advice.Kind kind, Optional<StepId> step, List<BenchState> turns) {}

  private final PackRules rules;
  private final Findings findings;

  AdviceOrder(PackRules rules, Findings findings) {
    this.rules = rules;
    this.findings = findings;
  }

  /**
   * The advice, best first. Candidates for the same thing become one advice with several reasons.
   *
   * @param outranked for a candidate, those that come before it
   * @throws IllegalStateException when at some point not exactly one candidate is outranked by none
   *     of the others
   */
  List<Advice> of(List<Candidate> candidates, Map<Candidate, Set<Candidate>> outranked) {
    Map<Same, List<Candidate>> together = new LinkedHashMap<>();
    for (Candidate each : inOrder(candidates, outranked)) {
      together
          .computeIfAbsent(new Same(each.kind(), each.step(), each.turns()), s -> new ArrayList<>())
          .add(each);
    }
    return together.values().stream().map(this::advice).toList();
  }

  private static List<Candidate> inOrder(
      List<Candidate> candidates, Map<Candidate, Set<Candidate>> outranked) {
    Set<Candidate> left = new LinkedHashSet<>(candidates);
    List<Candidate> sorted = new ArrayList<>();
    do {
      List<Candidate> first =
          left.stream()
              .filter(c -> outranked.getOrDefault(c, Set.of()).stream().noneMatch(left::contains))
              .toList();
      if (first.size() != 1) {
        throw new IllegalStateException(
            "exactly one candidate must be outranked by none: " + first + " of " + left);
      }
      sorted.add(first.get(0));
      left.remove(first.get(0));
    } while (!left.isEmpty());
    return sorted;
  }

  private Advice advice(List<Candidate> same) {
    Candidate first = same.get(0);
    Set<Reason> reasons = new LinkedHashSet<>();
    Set<ConsentId> consents = new LinkedHashSet<>();
    Set<FactId> about = new LinkedHashSet<>();
    for (Candidate each : same) {
      reasons.add(new Reason(each.why(), each.words()));
      if (each.kind() == Advice.Kind.ASK) {
        consents.addAll(findings.step(each.step().orElseThrow()).opensWithConsent());
      }
      if (each.why() == Reason.Why.RISK_TO_DATA) {
        consents.add(Conventions.RISK_DATA);
      }
      if (each.why() == Reason.Why.CEILING) {
        consents.add(Conventions.ABOVE_CEILING);
      }
      about.addAll(each.about());
    }
    Optional<StepStatus> status = first.step().map(findings::step);
    return new Advice(
        first.kind(),
        first.step(),
        List.copyOf(reasons),
        status.map(StepStatus::turns).orElse(first.turns()),
        status.map(StepStatus::cautions).orElseGet(() -> cautions(first.turns())),
        consents,
        about);
  }

  private Set<CautionId> cautions(List<BenchState> turns) {
    Set<CautionId> found = new LinkedHashSet<>();
    turns.forEach(t -> found.addAll(rules.ways().turns().get(t).cautions()));
    return found;
  }
}
