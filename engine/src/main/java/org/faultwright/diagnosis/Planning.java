package org.faultwright.diagnosis;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.ComparisonLimits;
import org.faultwright.planning.Permissions;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.PlanNode;
import org.faultwright.planning.Planner;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.planning.RepairWay;
import org.faultwright.planning.Weighing;

/** The walk from an answer to a plan. */
final class Planning {

  private static final double EVEN = 0.5;

  private static final double RARE = 1e-6;

  private final CompiledPack compiled;
  private final Planner planner;
  private final Intake intake;
  private final Answering.Worked now;

  Planning(CompiledPack compiled, Planner planner, Intake intake, Answering.Worked now) {
    this.compiled = compiled;
    this.planner = planner;
    this.intake = intake;
    this.now = now;
  }

  PlanResult plan(PlanLimits limits) {
    if (now.answer().outlook() instanceof Outlook.ImpossibleEvidence impossible) {
      return new NoPlan.FactsImpossible(impossible.clash());
    } else if (now.answer().outlook() instanceof Outlook.OverBudget wide) {
      return new NoPlan.TooWide(wide.predicted(), wide.budget());
    }
    Situation situation = situation();
    Permissions all = Permitted.by(now.answer().findings());
    boolean nothingLost = situation.lost().values().stream().noneMatch(lost -> lost);
    // a device is handed over: how likely it comes back rests on rare worlds
    LikelyWorlds worlds = worlds(nothingLost ? RARE : limits.leastP());
    Map<StepId, Double> dear = aboveCeiling(worlds, all);
    boolean isAsked = situation.consents().containsKey(Conventions.ABOVE_CEILING);
    boolean asIfAgreed = limits.asIfAgreed() && !isAsked;
    Permissions agreed = asIfAgreed ? all : without(all, dear.keySet());
    Plan plan = planner.plan(worlds, situation, intake, agreed, limits);
    if (leadsSomewhere(plan.root())) {
      return new PlanResult.Planned(
          repairs(plan.root()).anyMatch(dear::containsKey) ? dearer(plan) : plan);
    }
    Weighing open = planner.look(worlds, situation, intake, agreed);
    Plan end =
        plan.root() instanceof PlanNode.End
            ? plan
            : new Plan(
                planner.leave(situation, intake, agreed),
                plan.shop(),
                plan.atLeast(),
                plan.stepsAhead(),
                plan.pLeftOut());
    return new WhyNoPlan(compiled, now.answer(), dear).why(end, open);
  }

  /**
   * Whether something is repaired on some branch, or a function test may find that the function is
   * there. A device in which a function test only misses that the function is lost is no better for
   * it, cheap as it may be to hand it over.
   */
  private static boolean leadsSomewhere(PlanNode root) {
    return !(root instanceof PlanNode.End) && mayEndWell(root);
  }

  private static boolean mayEndWell(PlanNode node) {
    if (node instanceof PlanNode.DoTest test) {
      return test.branches().stream().anyMatch(b -> mayEndWell(b.then()));
    } else if (node instanceof PlanNode.End end) {
      return end.ending() == PlanNode.Ending.REPAIRED && end.pComeback() <= EVEN;
    }
    return node instanceof PlanNode.DoRepair || ((PlanNode.AndSoOn) node).next().isPresent();
  }

  private static Stream<StepId> repairs(PlanNode node) {
    if (node instanceof PlanNode.DoTest test) {
      return test.branches().stream().flatMap(b -> repairs(b.then()));
    } else if (node instanceof PlanNode.DoRepair repair) {
      return Stream.concat(Stream.of(repair.step()), repairs(repair.ifFailed()));
    }
    return Stream.empty();
  }

  /** The same plan, as if the customer agreed to pay more as well. */
  private static Plan dearer(Plan plan) {
    Set<ConsentId> asIfAgreed = new LinkedHashSet<>(plan.asIfAgreed());
    asIfAgreed.add(Conventions.ABOVE_CEILING);
    return new Plan(
        plan.root(), plan.shop(), plan.atLeast(), plan.stepsAhead(), plan.pLeftOut(), asIfAgreed);
  }

  /** The likely worlds, as many as are needed for the branches that are followed. */
  private LikelyWorlds worlds(double leastP) {
    return belief().worlds(Math.min(leastP, Answering.P_LEFT_OUT), Answering.MOST_WORLDS);
  }

  private Belief belief() {
    return now.belief().orElseThrow();
  }

  /** Holds a plan of this case against rules of thumb, with the worlds and steps it is made of. */
  Optional<PlanComparison> compare(Plan plan, ComparisonLimits limits) {
    return worldsOf(plan)
        .map(
            worlds ->
                planner.compare(
                    worlds, situation(), intake, permissionsOf(plan, worlds), plan, limits));
  }

  /** Whether a repair is worth it, with the worlds and steps that a plan is made of. */
  Optional<RepairOrNot> repairOrNot(Plan plan, PlanLimits limits) {
    return worldsOf(plan)
        .flatMap(
            worlds ->
                planner.repairOrNot(
                    worlds, situation(), intake, permissionsOf(plan, worlds), plan, limits));
  }

  private Situation situation() {
    return now.answer().findings().situation();
  }

  private Optional<LikelyWorlds> worldsOf(Plan plan) {
    return now.belief()
        .map(b -> worlds(Answering.P_LEFT_OUT))
        .map(few -> plan.pLeftOut() < few.pLeftOut() ? worlds(plan.pLeftOut()) : few);
  }

  private Permissions permissionsOf(Plan plan, LikelyWorlds worlds) {
    Permissions all = Permitted.by(now.answer().findings());
    return plan.asIfAgreed().contains(Conventions.ABOVE_CEILING)
        ? all
        : without(all, aboveCeiling(worlds, all).keySet());
  }

  /** The repairs for which the customer would have to pay more than agreed, with their costs. */
  private Map<StepId, Double> aboveCeiling(LikelyWorlds worlds, Permissions all) {
    Map<StepId, Double> found = new LinkedHashMap<>();
    Situation situation = situation();
    OptionalDouble ceiling = intake.ceiling();
    if (ceiling.isEmpty() || situation.consents().getOrDefault(Conventions.ABOVE_CEILING, false)) {
      return found;
    }
    for (Step step : compiled.pack().steps().values()) {
      boolean isRepair = !step.changes().isEmpty() || step.swap().isPresent();
      if (isRepair && all.steps().containsKey(step.id())) {
        found.put(step.id(), planner.costOf(step));
      }
    }
    // where it can be done now, with what the bench and the function tests take
    for (RepairWay way : planner.look(worlds, situation, intake, all).repairs()) {
      found.merge(way.repair(), way.cost(), Math::max);
    }
    found.values().removeIf(cost -> cost <= ceiling.getAsDouble());
    return found;
  }

  private static Permissions without(Permissions all, Set<StepId> dear) {
    Map<StepId, Guard> steps = new LinkedHashMap<>(all.steps());
    steps.keySet().removeAll(new LinkedHashSet<>(dear));
    return new Permissions(steps, all.turns());
  }
}
