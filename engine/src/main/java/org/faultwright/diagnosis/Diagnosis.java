package org.faultwright.diagnosis;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.BeliefResult;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.Estimate;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.explanation.Explainer;
import org.faultwright.explanation.WhyCause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.planning.ComparisonLimits;
import org.faultwright.planning.Plan;
import org.faultwright.planning.PlanComparison;
import org.faultwright.planning.PlanLimits;
import org.faultwright.planning.Planner;
import org.faultwright.planning.RepairOrNot;
import org.faultwright.rules.Findings;
import org.faultwright.rules.Standing;
import org.faultwright.rules.WorkingMemory;
import org.faultwright.rules.facts.Reread;

/**
 * One open case: tell it facts, ask for the answer. The order in which facts are told between two
 * attempts never matters; a withdrawn fact is as if never told. Confined to one thread; close it
 * when the case is put away.
 *
 * <p>A diagnosis costs little until its first answer, so that it can be forked freely for what-if.
 */
public final class Diagnosis implements AutoCloseable {

  private final CompiledPack compiled;

  /** How many of the tests that are worth most are looked at ahead when a cause is explained. */
  private static final int TESTS_AHEAD = 5;

  private final Engine.Ready ready;
  private CaseFile caseFile;
  private Optional<WorkingMemory> memory = Optional.empty();
  private Optional<Answering.Worked> worked = Optional.empty();

  Diagnosis(Engine.Ready ready, CaseFile caseFile) {
    this.ready = ready;
    this.compiled = ready.compiled();
    this.caseFile = caseFile;
    caseFile.facts().forEach(t -> KnownToPack.check(compiled.pack(), t.fact()));
  }

  /** The pack. */
  public Pack pack() {
    return compiled.pack();
  }

  /** The case as told so far. */
  public CaseFile caseFile() {
    return caseFile;
  }

  /**
   * Tells a fact.
   *
   * @return its number, for {@link #withdraw}
   * @throws IllegalArgumentException when the fact speaks of what the pack does not have; nothing
   *     has changed then
   */
  public FactId tell(Fact fact) {
    KnownToPack.check(compiled.pack(), fact);
    caseFile = caseFile.with(fact);
    worked = Optional.empty();
    return caseFile.facts().get(caseFile.facts().size() - 1).id();
  }

  /**
   * Withdraws a fact.
   *
   * @throws IllegalArgumentException when no such fact stands in the case
   */
  public void withdraw(FactId id) {
    if (caseFile.facts().stream().noneMatch(t -> t.id().equals(id))) {
      throw new IllegalArgumentException("fact must be one of the case: " + id);
    }
    caseFile = caseFile.without(id);
    worked = Optional.empty();
  }

  /** The answer to the facts told so far. */
  public Answer answer() {
    return worked().answer();
  }

  /**
   * How a reading keeps to its reference, by itself. Costs next to nothing: no answer is worked
   * out.
   *
   * @return empty where the fact is no reading of the device
   * @throws IllegalArgumentException when no such fact stands in the case
   */
  public Optional<JudgedReading> reading(FactId id) {
    Told told =
        caseFile.facts().stream()
            .filter(t -> t.id().equals(id))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("fact must be one of the case: " + id));
    return JudgedReading.of(pack(), told, ready.shop().guardBand());
  }

  private WorkingMemory memory() {
    if (memory.isEmpty()) {
      memory = Optional.of(ready.rules().open(caseFile.intake()));
    }
    return memory.get();
  }

  private Answering.Worked worked() {
    if (worked.isEmpty()) {
      WorkingMemory facts = memory();
      worked =
          Optional.of(
              withPlanner(p -> new Answering(compiled, ready.shop(), p, facts).answer(caseFile)));
    }
    return worked.get();
  }

  List<Reread> rereads() {
    return worked().rereads();
  }

  /** Borrows a planner: what it keeps is large, and serves the next case as well. */
  private <T> T withPlanner(Function<Planner, T> work) {
    Planner planner = ready.borrowPlanner();
    T result = work.apply(planner);
    ready.giveBack(planner);
    return result;
  }

  /** A second diagnosis with the same facts; what is told to the one does not reach the other. */
  public Diagnosis fork() {
    return new Diagnosis(ready, caseFile);
  }

  /** The answer if these facts were told as well; this diagnosis stays as it is. */
  public Answer suppose(Collection<? extends Fact> facts) {
    try (Diagnosis fork = fork()) {
      facts.forEach(fork::tell);
      return fork.answer();
    }
  }

  /**
   * The whole plan from here to the end of the job: what to do first, and what then, whatever comes
   * out. It keeps to what the customer has agreed to so far, repairs above the ceiling included.
   * Where there is no step to plan, the result says why, and what would open one.
   *
   * <p>A plan ends jobs by their expected cost alone. What rules decide beyond that (an alarm, data
   * to be saved first, a cause that calls for other hands) is in the answer.
   */
  public PlanResult plan(PlanLimits limits) {
    return planning(p -> p.plan(limits));
  }

  private <T> T planning(Function<Planning, T> work) {
    Answering.Worked now = worked();
    return withPlanner(p -> work.apply(new Planning(compiled, p, caseFile.intake(), now)));
  }

  /**
   * Holds a plan of this case against rules of thumb. Empty where nothing ranks.
   *
   * @param plan what {@link #plan} gave, or {@link NoPlan#ending}, with the same facts
   */
  public Optional<PlanComparison> compare(Plan plan, ComparisonLimits limits) {
    return planning(p -> p.compare(plan, limits));
  }

  /**
   * Whether a repair is worth it, from which value of the device on, and what the customer can be
   * told. Makes some more plans. Empty where nothing ranks, or where no function is known to be
   * lost.
   *
   * @param plan what {@link #plan} gave, or {@link NoPlan#ending}, with the same facts
   * @param limits for each further plan
   */
  public Optional<RepairOrNot> repairOrNot(Plan plan, PlanLimits limits) {
    return planning(p -> p.repairOrNot(plan, limits));
  }

  /**
   * Why a cause ranks where it does.
   *
   * @throws IllegalArgumentException when the pack has no such cause
   * @throws IllegalStateException when the facts cannot all be true, or the case is too wide: then
   *     nothing ranks
   */
  public WhyCause why(CauseId cause) {
    Answer now = answer();
    if (now.posterior().isEmpty()) {
      throw new IllegalStateException(
          "causes must be ranked before one can be explained: " + now.outlook());
    }
    now.posterior().get().p(cause);
    List<Told> facts = standing(now.findings());
    List<StepId> ahead =
        now.steps().stream()
            .filter(c -> !c.outcomes().isEmpty())
            .limit(TESTS_AHEAD)
            .map(Considered::step)
            .toList();
    LikelyWorlds worlds = worked().worlds().orElseThrow();
    return new Explainer(compiled, ready.device()).why(cause, facts, worlds, ahead);
  }

  /**
   * A closer look at the ranking. Costs two evaluations of the circuit for each fact and one for
   * each cause.
   *
   * @param sets how many sets of causes are wanted, at least 1
   * @throws IllegalStateException when nothing ranks
   */
  public Scrutiny scrutiny(int sets) {
    Answer now = answer();
    Posterior posterior =
        now.posterior()
            .orElseThrow(
                () ->
                    new IllegalStateException(
                        "causes must be ranked before a closer look: " + now.outlook()));
    Belief belief = (Belief) compiled.belief(standing(now.findings()), posterior.lost().keySet());
    return new Scrutiny(
        belief.explanations(sets),
        belief.conflict(),
        belief.sensitivity(posterior.leader().cause()));
  }

  /**
   * The readings of a step as a table, with what they say together. Works also where the facts
   * cannot all be true: then no probabilities of causes are given.
   *
   * @throws IllegalArgumentException when the pack has no such step, or no readings are taken in it
   */
  public PinReport pins(StepId id) {
    Step step = compiled.pack().steps().get(id);
    if (step == null || step.pinTable().isEmpty()) {
      throw new IllegalArgumentException("step must take readings: " + id);
    }
    // no advice is asked for, so that nothing has to be weighed
    List<Standing> standings =
        worked
            .map(w -> w.answer().findings().standings())
            .orElseGet(() -> memory().standings(caseFile.facts()));
    BeliefResult result = compiled.belief(standing(standings));
    Optional<Belief> belief =
        result instanceof Belief known ? Optional.of(known) : Optional.empty();
    return new PinReporting(compiled, ready.shop(), step, standings, belief)
        .report(caseFile.facts());
  }

  /**
   * How likely each cause is, estimated from random draws: for a case whose outlook is {@link
   * Outlook.OverBudget}, and nothing that an answer does on its own.
   *
   * @param draws how many draws to make, at least 1
   * @param seed the same seed gives the same estimate
   * @return empty where the facts came up in no draw
   */
  public Optional<Estimate> estimate(int draws, long seed) {
    return compiled.estimate(standing(answer().findings()), draws, seed);
  }

  static List<Told> standing(Findings findings) {
    return standing(findings.standings());
  }

  private static List<Told> standing(List<Standing> standings) {
    return standings.stream().filter(Standing::counts).map(Standing::told).toList();
  }

  @Override
  public void close() {
    memory.ifPresent(WorkingMemory::close);
    memory = Optional.empty();
  }
}
