package org.faultwright.rules;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Predicate;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step.Skill;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.ToolId;
import org.faultwright.rules.facts.ComesBack;
import org.faultwright.rules.facts.Exit;
import org.faultwright.rules.facts.FunctionLost;
import org.faultwright.rules.facts.Impossible;
import org.faultwright.rules.facts.Inspection;
import org.faultwright.rules.facts.Leader;
import org.faultwright.rules.facts.RepairPlan;
import org.faultwright.rules.facts.Reread;
import org.faultwright.rules.facts.RootFirst;
import org.faultwright.rules.facts.TestWorth;

/** A case told to {@link BenchPack}, with what inference and planning would make of it. */
final class Scene {
  private final List<Told> facts = new ArrayList<>();
  private final List<Leader> leaders = new ArrayList<>();
  private final List<FunctionLost> functions = new ArrayList<>();
  private final List<TestWorth> tests = new ArrayList<>();
  private final List<Reread> rereads = new ArrayList<>();
  private final List<RepairPlan> repairs = new ArrayList<>();
  private Optional<Exit> exit = Optional.empty();
  private final List<ComesBack> comebacks = new ArrayList<>();
  private final List<Inspection> inspections = new ArrayList<>();
  private final List<RootFirst> roots = new ArrayList<>();
  private Optional<Impossible> impossible = Optional.empty();
  private Optional<BoardId> board = Optional.empty();
  private Goal goal = Goal.WORKING;
  private final Set<ConsentId> consented = new LinkedHashSet<>();
  private final Set<ConsentId> refused = new LinkedHashSet<>();
  private boolean irreplaceable;
  private final Set<ToolId> lacking = new LinkedHashSet<>();

  static SwitchId sw(String id) {
    return new SwitchId(id);
  }

  static BenchState on(String of) {
    return new BenchState(sw(of), true);
  }

  static BenchState off(String of) {
    return new BenchState(sw(of), false);
  }

  Scene tell(Fact fact) {
    facts.add(new Told(new FactId(facts.size() + 1), Optional.empty(), fact));
    return this;
  }

  Scene reports(String complaint) {
    return tell(new Fact.Complained(new ComplaintId(complaint), true));
  }

  Scene denies(String complaint) {
    return tell(new Fact.Complained(new ComplaintId(complaint), false));
  }

  Scene symptom(String id, SymptomValue value) {
    return tell(new Fact.SymptomNoted(new SymptomId(id), value));
  }

  Scene present(String symptom) {
    return symptom(symptom, SymptomValue.PRESENT);
  }

  Scene saysLiquid(boolean happened) {
    return tell(new Fact.HistorySaid(new HistoryId("liquid"), happened));
  }

  Scene outcome(String step, String outcome) {
    return tell(new Fact.OutcomeSeen(new StepId(step), new OutcomeId(outcome)));
  }

  Scene couldNot(String step) {
    return tell(new Fact.CouldNotDo(new StepId(step), "no time"));
  }

  Scene reads(String point, double volts) {
    return reads(point, volts, Fact.Setup.AS_STATED);
  }

  Scene reads(String point, double volts, Fact.Setup setup) {
    return tell(
        new Fact.ReadingTaken(
            new PointId(point),
            new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE)),
            OptionalDouble.empty(),
            setup));
  }

  Scene did(String step) {
    return tell(new Fact.StepDone(new StepId(step), Optional.empty()));
  }

  Scene bench(BenchState state) {
    return tell(new Fact.BenchSet(state));
  }

  Scene check(String function, boolean atEnd, Fact.Checked.Result result) {
    return tell(new Fact.Checked(function, atEnd, result));
  }

  Scene consent(String id, boolean given) {
    return tell(new Fact.ConsentAnswered(new ConsentId(id), given));
  }

  static Fact.Setup setup(String leads, String instrument) {
    return new Fact.Setup(Optional.of(leads), Optional.of(new InstrumentId(instrument)));
  }

  Scene board(String id) {
    board = Optional.of(new BoardId(id));
    return this;
  }

  Scene goal(Goal wanted) {
    goal = wanted;
    return this;
  }

  Scene agreed(String... consents) {
    for (String each : consents) {
      consented.add(new ConsentId(each));
    }
    return this;
  }

  Scene refused(String consent) {
    refused.add(new ConsentId(consent));
    return this;
  }

  Scene irreplaceableData() {
    irreplaceable = true;
    return this;
  }

  Scene lacks(String tool) {
    lacking.add(new ToolId(tool));
    return this;
  }

  Scene leader(String cause, double p) {
    Cause of = BenchPack.PACK.causes().get(new CauseId(cause));
    leaders.add(new Leader(leaders.size() + 1, of.id(), p, of.kind(), of.sendOn()));
    return this;
  }

  Scene lost(String complaint, double p) {
    functions.add(new FunctionLost(new ComplaintId(complaint), p));
    return this;
  }

  Scene test(String step, double worth) {
    tests.add(new TestWorth(new StepId(step), worth, 1));
    return this;
  }

  Scene reread(int fact, String step, double worth) {
    rereads.add(new Reread(new FactId(fact), new StepId(step), worth));
    return this;
  }

  Scene repair(String step, double cost) {
    repairs.add(new RepairPlan(new StepId(step), cost, 0.5, false));
    return this;
  }

  Scene dearRepair(String step, double cost) {
    repairs.add(new RepairPlan(new StepId(step), cost, 0.5, true));
    return this;
  }

  Scene exit(double cost, boolean bySendingOn) {
    exit = Optional.of(new Exit(cost, bySendingOn));
    return this;
  }

  Scene comesBack(String complaint, double p) {
    comebacks.add(new ComesBack(new ComplaintId(complaint), p));
    return this;
  }

  Scene inspection(String step, String cause, double worth) {
    inspections.add(new Inspection(new StepId(step), new CauseId(cause), worth));
    return this;
  }

  Scene rootFirst(String repair, String follower, String root) {
    roots.add(new RootFirst(new StepId(repair), new CauseId(follower), new CauseId(root)));
    return this;
  }

  Scene impossible(int... ids) {
    Set<FactId> set = new LinkedHashSet<>();
    for (int each : ids) {
      set.add(new FactId(each));
    }
    impossible = Optional.of(new Impossible(set));
    return this;
  }

  List<Told> facts() {
    return List.copyOf(facts);
  }

  Intake intake() {
    return new Intake(
        board,
        goal,
        consented,
        refused,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        irreplaceable,
        lacking,
        Skill.BOARD);
  }

  Summary summary() {
    return new Summary(
        leaders,
        functions,
        tests,
        rereads,
        repairs,
        exit,
        comebacks,
        inspections,
        roots,
        impossible);
  }

  /** What the rules conclude and advise. */
  record Result(Findings findings, AdviceSet advice) {

    boolean open(String step) {
      return findings.isOpen(new StepId(step));
    }

    boolean blocked(String step, Blocked.Kind kind) {
      return findings.step(new StepId(step)).isBlockedBy(kind);
    }

    Standing fact(int number) {
      return findings.standing(new FactId(number)).orElseThrow();
    }

    boolean conflict(Conflict.Kind kind) {
      return advice.conflicts().stream().anyMatch(c -> c.kind() == kind);
    }

    boolean first(Advice.Kind kind) {
      return advice.primary().kind() == kind;
    }

    boolean first(Advice.Kind kind, String step) {
      return first(kind) && advice.primary().step().equals(Optional.of(new StepId(step)));
    }

    boolean first(Advice.Kind kind, Reason.Why why) {
      return first(kind) && advice.primary().reasons().get(0).why() == why;
    }
  }

  Result result() {
    return result(rule -> true);
  }

  Result result(Predicate<String> rulesKept) {
    try (WorkingMemory memory = BenchPack.RULES.open(intake(), rulesKept)) {
      Findings findings = memory.conclude(facts);
      return new Result(findings, memory.advise(summary()));
    }
  }
}
