package org.faultwright.diagnosis;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import org.faultwright.casefile.CaseFile;
import org.faultwright.compile.CompiledPack;
import org.faultwright.pack.Cause;
import org.faultwright.pack.Pack;
import org.faultwright.pack.StepId;
import org.faultwright.planning.RepairWay;
import org.faultwright.planning.Weighing;
import org.faultwright.planning.Worth;
import org.faultwright.rules.Findings;
import org.faultwright.rules.Summary;
import org.faultwright.rules.facts.ComesBack;
import org.faultwright.rules.facts.Exit;
import org.faultwright.rules.facts.FunctionLost;
import org.faultwright.rules.facts.Inspection;
import org.faultwright.rules.facts.Leader;
import org.faultwright.rules.facts.RepairPlan;
import org.faultwright.rules.facts.Reread;
import org.faultwright.rules.facts.RootFirst;
import org.faultwright.rules.facts.TestWorth;

/** What inference and planning found, in the few facts that the second firing needs. */
final class Summarising {

  private static final int LEADERS = 3;
  private static final int TESTS = 6;
  private static final int REPAIRS = 4;

  /** Relative error of expected costs: thousands of products of doubles are added up. */
  private static final double ROUNDING = 1e-10;

  /**
   * A quarter of the share of the worlds that a weighing leaves out by rule (decision 0006): what
   * is left out mostly costs the same with the test as without. Chosen by trial on the cases, no
   * source.
   */
  private static final double COUNTED_LEFT_OUT = 0.0025;

  private final CompiledPack compiled;
  private final Pack pack;
  private final CaseFile caseFile;
  private final Findings findings;
  private final Posterior posterior;
  private final Weighing weighing;

  Summarising(
      CompiledPack compiled,
      CaseFile caseFile,
      Findings findings,
      Posterior posterior,
      Weighing weighing) {
    this.compiled = compiled;
    this.pack = compiled.pack();
    this.caseFile = caseFile;
    this.findings = findings;
    this.posterior = posterior;
    this.weighing = weighing;
  }

  /**
   * The summary.
   *
   * @param handOver what it costs to hand the device over as it is; empty where that is no way out
   */
  Summary summary(
      List<Reread> rereads,
      List<ComesBack> comebacks,
      List<Inspection> inspections,
      OptionalDouble handOver) {
    return new Summary(
        leaders(),
        posterior.lost().entrySet().stream()
            .map(e -> new FunctionLost(e.getKey(), e.getValue()))
            .toList(),
        tests(),
        rereads,
        repairs(),
        Optional.of(
            new Exit(
                Math.max(
                    0, Math.min(handOver.orElse(weighing.exit().cost()), weighing.exit().cost())),
                weighing.exit().kind() == org.faultwright.planning.Exit.Kind.SEND_ON)),
        comebacks,
        inspections,
        roots(),
        Optional.empty());
  }

  private List<RootFirst> roots() {
    Roots roots = new Roots(pack, compiled.lineage(), posterior);
    return roots.before(weighing.compared().repairs()).stream().distinct().toList();
  }

  private List<Leader> leaders() {
    List<Leader> leaders = new ArrayList<>();
    for (Posterior.Ranked r :
        posterior.ranking().subList(0, Math.min(LEADERS, posterior.ranking().size()))) {
      Cause cause = pack.causes().get(r.cause());
      leaders.add(new Leader(leaders.size() + 1, r.cause(), r.p(), cause.kind(), cause.sendOn()));
    }
    return leaders;
  }

  private List<TestWorth> tests() {
    Map<StepId, TestWorth> tests = new LinkedHashMap<>();
    addTests(tests, findings::isOpen);
    addTests(tests, this::opensWithConsent);
    return List.copyOf(tests.values());
  }

  private void addTests(Map<StepId, TestWorth> tests, Predicate<StepId> which) {
    weighing.compared().tests().stream()
        .filter(w -> which.test(w.step()))
        .limit(TESTS)
        .forEach(w -> tests.putIfAbsent(w.step(), new TestWorth(w.step(), worth(w), w.cost())));
  }

  /**
   * A worth that is nothing but rounding is none, and neither is one so small that the worlds left
   * out of the weighing could undo it.
   */
  private double worth(Worth test) {
    double scale = Math.abs(weighing.compared().costWithoutTests());
    double leftOut = Math.min(weighing.compared().pLeftOut(), COUNTED_LEFT_OUT);
    double unsure = ROUNDING * (1 + scale) + leftOut * scale;
    return Math.abs(test.worth()) < unsure ? 0 : test.worth();
  }

  private boolean opensWithConsent(StepId step) {
    return !findings.step(step).opensWithConsent().isEmpty();
  }

  private List<RepairPlan> repairs() {
    Map<StepId, RepairPlan> repairs = new LinkedHashMap<>();
    addRepairs(repairs, findings::isOpen);
    addRepairs(repairs, this::opensWithConsent);
    return List.copyOf(repairs.values());
  }

  private void addRepairs(Map<StepId, RepairPlan> repairs, Predicate<StepId> which) {
    weighing.compared().repairs().stream()
        .filter(w -> which.test(w.repair()))
        .limit(REPAIRS)
        .forEach(
            w ->
                repairs.putIfAbsent(
                    w.repair(),
                    new RepairPlan(
                        w.repair(), Math.max(0, w.expectedCost()), w.pPass(), aboveCeiling(w))));
  }

  private boolean aboveCeiling(RepairWay way) {
    return caseFile.intake().ceiling().isPresent()
        && way.cost() > caseFile.intake().ceiling().getAsDouble();
  }
}
