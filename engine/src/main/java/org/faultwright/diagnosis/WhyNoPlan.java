package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.Lineage;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.NextStep;
import org.faultwright.planning.Plan;
import org.faultwright.planning.RepairWay;
import org.faultwright.planning.Weighing;
import org.faultwright.rules.Blocked;
import org.faultwright.rules.Findings;
import org.faultwright.rules.StepStatus;
import org.faultwright.rules.TurnStatus;

/** Decides why the cheapest plan has no step, and what would open one. */
final class WhyNoPlan {

  /** Causes less likely than this call for no repair; planning leaves them out as well. */
  private static final double NEGLIGIBLE = 1e-6;

  private final CompiledPack compiled;
  private final Answer answer;
  private final Findings findings;
  private final Map<StepId, Double> aboveCeiling;

  /**
   * A case without a plan.
   *
   * @param aboveCeiling repairs that were left out of the plan for their price, with what they cost
   */
  WhyNoPlan(CompiledPack compiled, Answer answer, Map<StepId, Double> aboveCeiling) {
    this.compiled = compiled;
    this.answer = answer;
    this.findings = answer.findings();
    this.aboveCeiling = aboveCeiling;
  }

  /**
   * The reason.
   *
   * @param end the plan that only ends the job
   * @param open what could be done at once
   */
  NoPlan why(Plan end, Weighing open) {
    Map<ComplaintId, Boolean> lost = findings.situation().lost();
    if (lost.values().stream().noneMatch(isLost -> isLost)) {
      return answer.posterior().orElseThrow().lost().isEmpty()
          ? new NoPlan.NothingReported()
          : new NoPlan.FunctionBack(end);
    }
    Set<StepId> repairs = repairsThatMayHelp(lost);
    if (repairs.isEmpty()) {
      return new NoPlan.NoRepair(end);
    }
    if (!open.repairs().isEmpty()) {
      RepairWay cheapest = open.repairs().get(0);
      return new NoPlan.NotWorthIt(
          cheapest.repair(), cheapest.expectedCost(), unasked(repairs, open), end);
    }
    Optional<StepId> cheapest =
        repairs.stream()
            .filter(r -> aboveCeiling.containsKey(r) && findings.isOpen(r))
            .min(Comparator.comparingDouble(aboveCeiling::get));
    if (cheapest.isPresent()) {
      return new NoPlan.AboveCeiling(
          answer.caseFile().intake().ceiling().orElseThrow(),
          cheapest.get(),
          aboveCeiling.get(cheapest.get()),
          findings.situation().consents().containsKey(Conventions.ABOVE_CEILING),
          end);
    }
    return new NoPlan.NothingOpen(obstacles(repairs), end);
  }

  /** The repairs, open or not, that remove or hide a cause of what is lost that may be present. */
  private Set<StepId> repairsThatMayHelp(Map<ComplaintId, Boolean> lost) {
    Lineage lineage = compiled.lineage();
    Posterior posterior = answer.posterior().orElseThrow();
    Set<CauseId> suspects = new LinkedHashSet<>();
    lost.forEach(
        (complaint, isLost) -> {
          if (isLost && compiled.pack().complaints().containsKey(complaint)) {
            suspects.addAll(lineage.ancestors(compiled.pack().complaints().get(complaint).event()));
          }
        });
    suspects.removeIf(c -> posterior.p(c) <= NEGLIGIBLE);
    Set<StepId> found = new LinkedHashSet<>();
    for (Step step : compiled.pack().steps().values()) {
      boolean helps =
          lineage.changes(step).entrySet().stream()
              .anyMatch(
                  c ->
                      suspects.contains(c.getKey())
                          && c.getValue().cures().p() + c.getValue().hides().p() > 0);
      if (helps) {
        found.add(step.id());
      }
    }
    return found;
  }

  /** What the customer can be asked for; empty where all of it together would not pay either. */
  private List<NoPlan.Obstacle> unasked(Set<StepId> repairs, Weighing open) {
    boolean pays = open.ifAgreed().filter(w -> !(w.next() instanceof NextStep.Leave)).isPresent();
    return pays
        ? obstacles(repairs).stream()
            .filter(o -> o.blocked().kind() == Blocked.Kind.LACKS_CONSENT)
            .toList()
        : List.of();
  }

  /** What stands in the way of these repairs, and of tests on which they may wait. */
  private List<NoPlan.Obstacle> obstacles(Set<StepId> repairs) {
    Map<Blocked, Set<StepId>> steps = new LinkedHashMap<>();
    Map<Blocked, Set<StepId>> opens = new LinkedHashMap<>();
    for (StepStatus status : findings.steps().values()) {
      Step step = compiled.pack().steps().get(status.step());
      boolean isRepair = !step.changes().isEmpty() || step.swap().isPresent();
      if (isRepair ? !repairs.contains(step.id()) : !mayStillTell(status)) {
        continue;
      }
      for (Blocked reason : status.blocked()) {
        Blocked plain = reason.withoutCondition();
        steps.computeIfAbsent(plain, k -> new LinkedHashSet<>()).add(step.id());
        if (status.blocked().stream().allMatch(b -> b.withoutCondition().equals(plain))) {
          opens.computeIfAbsent(plain, k -> new LinkedHashSet<>()).add(step.id());
        }
      }
    }
    List<NoPlan.Obstacle> found = new ArrayList<>();
    steps.forEach(
        (blocked, of) ->
            found.add(
                new NoPlan.Obstacle(
                    blocked,
                    hold(blocked),
                    turn(blocked, of),
                    List.copyOf(of),
                    List.copyOf(opens.getOrDefault(blocked, Set.of())))));
    // repairs before tests, since tests do not help without repairs
    found.sort(
        Comparator.comparingInt((NoPlan.Obstacle o) -> -count(o.opens(), repairs))
            .thenComparingInt(o -> -count(o.steps(), repairs))
            .thenComparingInt(o -> -o.opens().size())
            .thenComparing(NoPlan.Obstacle::blocked));
    return found;
  }

  private static int count(List<StepId> steps, Set<StepId> repairs) {
    return (int) steps.stream().filter(repairs::contains).count();
  }

  private boolean mayStillTell(StepStatus test) {
    Step step = compiled.pack().steps().get(test.step());
    return (step.shows().isPresent() || step.pinTable().isPresent())
        && !test.isBlockedBy(Blocked.Kind.ANSWERED_ALREADY);
  }

  private Optional<HoldId> hold(Blocked blocked) {
    return isHeld(blocked)
        ? compiled.pack().holds().values().stream()
            .filter(h -> h.says().equals(blocked.words()))
            .map(h -> h.id())
            .findFirst()
        : Optional.empty();
  }

  private static boolean isHeld(Blocked blocked) {
    return blocked.kind() == Blocked.Kind.HELD || blocked.kind() == Blocked.Kind.SWITCH_HELD;
  }

  /** The switch on the way of one of the steps that is what the hold forbids. */
  private Optional<BenchState> turn(Blocked blocked, Set<StepId> of) {
    if (blocked.kind() != Blocked.Kind.SWITCH_HELD) {
      return Optional.empty();
    }
    Set<BenchState> needed = new LinkedHashSet<>();
    for (StepId id : of) {
      needed.addAll(findings.step(id).turns());
      needed.addAll(compiled.pack().steps().get(id).conditions().bench());
    }
    return needed.stream().filter(state -> isForbidden(state, blocked)).findFirst();
  }

  private boolean isForbidden(BenchState state, Blocked blocked) {
    TurnStatus status = findings.turns().get(state);
    return status != null
        && status.blocked().stream()
            .anyMatch(b -> b.kind() == Blocked.Kind.HELD && b.words().equals(blocked.words()));
  }
}
