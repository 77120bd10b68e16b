package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.StepId;
import org.faultwright.planning.Exit;
import org.faultwright.planning.NextStep;
import org.faultwright.planning.Planner;
import org.faultwright.planning.RepairWay;
import org.faultwright.planning.Seen;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Spend;
import org.faultwright.planning.Weighing;
import org.faultwright.planning.Worth;
import org.faultwright.rules.Advice;
import org.faultwright.rules.AdviceSet;
import org.faultwright.rules.Findings;
import org.faultwright.rules.StepStatus;
import org.faultwright.rules.Summary;
import org.faultwright.rules.WorkingMemory;
import org.faultwright.rules.facts.Impossible;
import org.faultwright.rules.facts.Reread;

/**
 * The walk from facts to an answer: first firing, evidence, posterior, worlds, worth, second
 * firing. See {@code DEVELOPERS.md}, "One fact followed through the code".
 */
final class Answering {

  /** Probability of unlikely worlds that planning may leave out. */
  static final double P_LEFT_OUT = 1e-2;

  /** Worlds that planning looks at, at most. */
  static final int MOST_WORLDS = 100;

  private final CompiledPack compiled;
  private final Planner planner;
  private final WorkingMemory memory;
  private final Shop shop;

  Answering(CompiledPack compiled, Shop shop, Planner planner, WorkingMemory memory) {
    this.compiled = compiled;
    this.shop = shop;
    this.planner = planner;
    this.memory = memory;
  }

  /**
   * An answer with what it was worked out from.
   *
   * @param belief what is believed, and
   * @param worlds the likely worlds; both empty where nothing ranks
   * @param rereads what it is worth to take readings on a limit again
   */
  record Worked(
      Answer answer,
      Optional<Belief> belief,
      Optional<LikelyWorlds> worlds,
      List<Reread> rereads) {}

  Worked answer(CaseFile caseFile) {
    Findings findings = memory.conclude(caseFile.facts());
    List<Told> standing = Diagnosis.standing(findings);
    Set<ComplaintId> reported = reported(standing);
    BeliefResult result = compiled.belief(standing, reported);
    if (result instanceof BeliefResult.ImpossibleEvidence impossible) {
      Summary summary = Summary.impossible(new Impossible(impossible.clash()));
      return unweighed(
          caseFile,
          findings,
          new Outlook.ImpossibleEvidence(impossible.clash()),
          memory.advise(summary));
    } else if (result instanceof BeliefResult.OverBudget over) {
      return unweighed(
          caseFile,
          findings,
          new Outlook.OverBudget(over.predicted(), over.budget()),
          memory.advise(Summary.NOTHING));
    }
    Belief belief = (Belief) result;
    Posterior posterior = posterior(compiled, belief, reported);
    LikelyWorlds worlds = belief.worldsAhead(P_LEFT_OUT, MOST_WORLDS);
    Weighing asItStands =
        planner.look(worlds, findings.situation(), caseFile.intake(), Permitted.by(findings));
    Lasting lasting = new Lasting(compiled, shop, belief, findings, reported);
    Optional<Weighing> ifItComesBack =
        lasting
            .situation()
            .map(s -> planner.look(worlds, s, caseFile.intake(), Permitted.by(findings)));
    Weighing weighing = ifItComesBack.filter(w -> lasting.isUnlikely()).orElse(asItStands);
    List<Reread> rereads =
        new Rereading(compiled, shop, planner, caseFile.intake(), findings, standing, belief)
            .worths(weighing);
    Summary summary =
        new Summarising(compiled, caseFile, findings, posterior, weighing)
            .summary(
                rereads,
                lasting.comebacks(),
                ifItComesBack.map(lasting::inspections).orElse(List.of()),
                lasting.isUnlikely()
                    ? OptionalDouble.of(asItStands.expectedCost())
                    : OptionalDouble.empty());
    AdviceSet advice = memory.advise(summary);
    Answer answer =
        new Answer(
            caseFile,
            findings,
            posterior,
            considered(findings, weighing.compared()),
            OptionalDouble.of(weighing.compared().expectedCost()),
            weighing.ifAgreed().isPresent()
                ? OptionalDouble.of(weighing.expectedCost())
                : OptionalDouble.empty(),
            ends(asItStands, weighing),
            weighing.pLeftOut(),
            advice,
            shop,
            readings(caseFile));
    return new Worked(answer, Optional.of(belief), Optional.of(worlds), rereads);
  }

  private static Set<ComplaintId> reported(List<Told> standing) {
    Set<ComplaintId> reported = new LinkedHashSet<>();
    for (Told t : standing) {
      if (t.fact() instanceof Fact.Complained c && c.reported()) {
        reported.add(c.complaint());
      }
    }
    return reported;
  }

  static Posterior posterior(CompiledPack compiled, Belief belief, Set<ComplaintId> reported) {
    List<Posterior.Ranked> ranking = new ArrayList<>();
    belief
        .causes()
        .forEach(
            (c, p) ->
                ranking.add(new Posterior.Ranked(c, p, compiled.priors().getOrDefault(c, 0.0))));
    ranking.sort(Comparator.comparingDouble((Posterior.Ranked r) -> -r.p()));
    Map<ComplaintId, Double> lost = new LinkedHashMap<>();
    reported.forEach(c -> lost.put(c, Math.min(1, belief.pLost(c))));
    return new Posterior(ranking, lost, belief.logPEvidence());
  }

  private Worked unweighed(
      CaseFile caseFile, Findings findings, Outlook outlook, AdviceSet advice) {
    List<Considered> steps = new ArrayList<>();
    findings.steps().values().forEach(s -> steps.add(unweighed(s)));
    return new Worked(
        new Answer(
            caseFile,
            findings,
            outlook,
            steps,
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Map.of(),
            0,
            advice,
            shop,
            readings(caseFile)),
        Optional.empty(),
        Optional.empty(),
        List.of());
  }

  private List<JudgedReading> readings(CaseFile caseFile) {
    return caseFile.facts().stream()
        .flatMap(t -> JudgedReading.of(compiled.pack(), t, shop.guardBand()).stream())
        .toList();
  }

  private static Considered unweighed(StepStatus status) {
    return new Considered(
        status.step(),
        status,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Optional.empty(),
        Map.of());
  }

  /** What it takes to end the job here. */
  private static Map<Advice.Kind, Spend> ends(Weighing asItStands, Weighing weighing) {
    Map<Advice.Kind, Spend> ends = new EnumMap<>(Advice.Kind.class);
    ends.put(
        weighing.exit().kind() == Exit.Kind.SEND_ON ? Advice.Kind.SEND_ON : Advice.Kind.RETURN,
        weighing.ending());
    if (asItStands.next() instanceof NextStep.HandOver) {
      ends.put(Advice.Kind.CLOSE_UP, asItStands.toTheEnd());
    }
    return ends;
  }

  private static List<Considered> considered(Findings findings, Weighing weighing) {
    Map<StepId, Considered> steps = new LinkedHashMap<>();
    for (Worth w : weighing.tests()) {
      Map<OutcomeId, Double> outcomes = new LinkedHashMap<>();
      for (Worth.Branch b : w.branches()) {
        if (b.seen() instanceof Seen.Shown shown) {
          outcomes.put(shown.outcome(), b.p());
        }
      }
      steps.put(
          w.step(),
          new Considered(
              w.step(),
              findings.step(w.step()),
              OptionalDouble.of(w.worth()),
              OptionalDouble.of(w.cost()),
              w.toTheEnd(),
              outcomes));
    }
    for (RepairWay w : weighing.repairs()) {
      steps.putIfAbsent(
          w.repair(),
          new Considered(
              w.repair(),
              findings.step(w.repair()),
              OptionalDouble.empty(),
              OptionalDouble.of(w.cost()),
              Optional.of(w.toTheEnd()),
              Map.of()));
    }
    findings.steps().forEach((id, status) -> steps.computeIfAbsent(id, k -> unweighed(status)));
    return List.copyOf(steps.values());
  }
}
