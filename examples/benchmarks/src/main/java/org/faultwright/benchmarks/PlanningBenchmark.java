package org.faultwright.benchmarks;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Situation;
import org.faultwright.casefile.Told;
import org.faultwright.compile.Belief;
import org.faultwright.compile.CompiledPack;
import org.faultwright.compile.LikelyWorlds;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.planning.DeviceModel;
import org.faultwright.planning.Permissions;
import org.faultwright.planning.Planner;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Weighing;
import org.faultwright.rules.Findings;
import org.faultwright.rules.RuleBase;
import org.faultwright.rules.Standing;
import org.faultwright.rules.WorkingMemory;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The share of the weighing in a step from fact to advice: the likely worlds are given. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
public class PlanningBenchmark {

  /** A pack of the Wren handset. */
  @Param({"charging", "power"})
  public String pack;

  private Planner planner;
  private LikelyWorlds worlds;
  private LikelyWorlds worldsBefore;
  private Situation now;
  private Intake intake;
  private Permissions permissions;

  /** Works out what is believed with all facts of the case, and what the rules allow. */
  @Setup
  public void believe() {
    Pack read = WrenPacks.pack(pack);
    CaseFile caseFile = WrenPacks.caseFile(read);
    CompiledPack compiled = WrenPacks.compiled(read);
    intake = caseFile.intake();
    planner = Planner.of(DeviceModel.of(read), Shop.ORDINARY);
    try (WorkingMemory memory = RuleBase.shared().open(read, intake)) {
      Findings findings = memory.conclude(caseFile.facts());
      now = findings.situation();
      permissions = permissions(findings);
      List<Told> standing =
          findings.standings().stream().filter(Standing::counts).map(Standing::told).toList();
      worlds = worlds(compiled, standing);
      worldsBefore = worlds(compiled, standing.subList(0, standing.size() - 1));
    }
  }

  private static LikelyWorlds worlds(CompiledPack compiled, List<Told> facts) {
    Set<ComplaintId> reported = new LinkedHashSet<>();
    for (Told t : facts) {
      if (t.fact() instanceof Fact.Complained c && c.reported()) {
        reported.add(c.complaint());
      }
    }
    if (compiled.belief(facts, reported) instanceof Belief belief) {
      return belief.worldsAhead(1e-2, 100);
    }
    throw new IllegalStateException("case must be one that ranks");
  }

  /** All that the rules' guards may allow now or later. */
  private static Permissions permissions(Findings findings) {
    Map<StepId, Guard> steps = new LinkedHashMap<>();
    findings.steps().forEach((id, status) -> steps.put(id, status.guard()));
    Map<BenchState, Guard> turns = new LinkedHashMap<>();
    findings.turns().forEach((state, status) -> turns.put(state, status.guard()));
    return new Permissions(steps, turns);
  }

  /**
   * Every open test with all its outcomes and every repair is weighed, as things stand and as if
   * the customer agreed to all that nobody has asked for. What the planner keeps has been worked
   * out before.
   */
  @Benchmark
  public Weighing nextStep() {
    return planner.look(worlds, now, intake, permissions);
  }

  /** The same after the belief has moved: another set of worlds each time, two in turn. */
  @Benchmark
  @OperationsPerInvocation(2)
  public double nextStepAfterAFact() {
    return planner.look(worlds, now, intake, permissions).expectedCost()
        + planner.look(worldsBefore, now, intake, permissions).expectedCost();
  }
}
