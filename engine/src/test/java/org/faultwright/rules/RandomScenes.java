package org.faultwright.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Intake;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.ToolId;
import org.faultwright.rules.facts.ComesBack;
import org.faultwright.rules.facts.Exit;
import org.faultwright.rules.facts.FunctionLost;
import org.faultwright.rules.facts.Inspection;
import org.faultwright.rules.facts.Leader;
import org.faultwright.rules.facts.RepairPlan;
import org.faultwright.rules.facts.Reread;
import org.faultwright.rules.facts.RootFirst;
import org.faultwright.rules.facts.TestWorth;

/** Random cases told to {@link BenchPack}. */
public final class RandomScenes {
  private RandomScenes() {}

  public static Arbitrary<Fact> facts() {
    return Arbitraries.oneOf(
        List.of(
            Combinators.combine(
                    Arbitraries.of("dead", "mute").map(ComplaintId::new),
                    Arbitraries.of(true, false))
                .as(Fact.Complained::new),
            Combinators.combine(
                    Arbitraries.of("swollen", "smell", "wet-board", "crackle").map(SymptomId::new),
                    Arbitraries.of(SymptomValue.class))
                .as(Fact.SymptomNoted::new),
            Arbitraries.of(true, false).map(h -> new Fact.HistorySaid(new HistoryId("liquid"), h)),
            Arbitraries.of(true, false).map(h -> new Fact.HistorySeen(new HistoryId("liquid"), h)),
            outcomes(),
            outcomes(),
            readings(),
            steps().map(s -> new Fact.StepDone(s, Optional.empty())),
            steps().map(s -> new Fact.StepDone(s, Optional.empty())),
            steps().map(s -> new Fact.CouldNotDo(s, "")),
            positions().map(Fact.BenchSet::new),
            Combinators.combine(
                    Arbitraries.of(true, false), Arbitraries.of(Fact.Checked.Result.class))
                .as((end, result) -> new Fact.Checked("camera", end, result)),
            Combinators.combine(
                    Arbitraries.of("opening", "board-work", "above-ceiling", "risk-data")
                        .map(ConsentId::new),
                    Arbitraries.of(true, false))
                .as(Fact.ConsentAnswered::new)));
  }

  private static Arbitrary<StepId> steps() {
    return Arbitraries.of(List.copyOf(BenchPack.PACK.steps().keySet()));
  }

  static Arbitrary<BenchState> positions() {
    return Combinators.combine(
            Arbitraries.of(List.copyOf(BenchPack.PACK.switches().keySet())),
            Arbitraries.of(true, false))
        .as(BenchState::new);
  }

  private static Arbitrary<Fact> outcomes() {
    List<Fact> all = new ArrayList<>();
    for (Step step : BenchPack.PACK.steps().values()) {
      step.shows()
          .ifPresent(
              o -> {
                for (OutcomeId each : o.outcomes()) {
                  all.add(new Fact.OutcomeSeen(step.id(), each));
                }
              });
    }
    return Arbitraries.of(all);
  }

  private static Arbitrary<Fact> readings() {
    Arbitrary<ReadingValue> values =
        Arbitraries.of(0.1, 0.2, 0.55, 0.6, 0.65, 0.8)
            .map(v -> new ReadingValue.Measured(new Quantity(v, Dimension.VOLTAGE)));
    Arbitrary<ReadingValue> all =
        Arbitraries.oneOf(
            List.of(values, Arbitraries.just(new ReadingValue.OverRange(Dimension.VOLTAGE))));
    Arbitrary<Fact.Setup> setups =
        Arbitraries.of(
            Fact.Setup.AS_STATED,
            new Fact.Setup(Optional.of("black-on-ground"), Optional.empty()),
            new Fact.Setup(Optional.empty(), Optional.of(new InstrumentId("scope"))));
    return Combinators.combine(Arbitraries.of("gate", "rail").map(PointId::new), all, setups)
        .as(
            (point, value, setup) ->
                new Fact.ReadingTaken(point, value, OptionalDouble.empty(), setup));
  }

  public static Arbitrary<Intake> intakes() {
    Arbitrary<Optional<BoardId>> boards =
        Arbitraries.of("rev-a", "rev-b").map(BoardId::new).optional(0.7);
    Arbitrary<Set<ConsentId>> consented =
        Arbitraries.of("opening", "board-work").map(ConsentId::new).set();
    return Combinators.combine(
            boards,
            Arbitraries.of(Goal.class),
            consented,
            Arbitraries.of(true, false),
            Arbitraries.of("camera").map(ToolId::new).set(),
            Arbitraries.of(Step.Skill.class))
        .as(
            (board, goal, agreed, irreplaceable, lacking, skill) ->
                new Intake(
                    board,
                    goal,
                    agreed,
                    Set.of(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    irreplaceable,
                    lacking,
                    skill));
  }

  static Arbitrary<Summary> summaries() {
    Arbitrary<StepId> some = steps();
    Arbitrary<Double> money = Arbitraries.of(-5.0, 0.0, 1.0, 5.0, 5.0, 20.0);
    Arbitrary<Double> costs = Arbitraries.of(0.0, 5.0, 10.0, 10.0, 40.0);
    Arbitrary<List<Leader>> leaders =
        Combinators.combine(
                Arbitraries.of(List.copyOf(BenchPack.PACK.causes().values())),
                Arbitraries.of(0.2, 0.5, 0.9))
            .as((c, p) -> new Leader(1, c.id(), p, c.kind(), c.sendOn()))
            .list()
            .ofMaxSize(1);
    Arbitrary<List<FunctionLost>> functions =
        Arbitraries.of(0.1, 0.7)
            .map(p -> new FunctionLost(new ComplaintId("dead"), p))
            .list()
            .ofMaxSize(1);
    Arbitrary<List<TestWorth>> tests =
        Combinators.combine(some, money)
            .as((s, w) -> new TestWorth(s, w, 1))
            .list()
            .ofMaxSize(4)
            .uniqueElements(TestWorth::step);
    Arbitrary<List<Reread>> rereads =
        Combinators.combine(Arbitraries.integers().between(1, 12), money)
            .as((f, w) -> new Reread(new FactId(f), new StepId("probe"), w))
            .list()
            .ofMaxSize(2)
            .uniqueElements(Reread::fact);
    Arbitrary<List<RepairPlan>> repairs =
        Combinators.combine(some, costs, Arbitraries.of(true, false))
            .as((s, c, above) -> new RepairPlan(s, c, 0.5, above))
            .list()
            .ofMaxSize(4)
            .uniqueElements(RepairPlan::step);
    Arbitrary<Optional<Exit>> exits =
        Combinators.combine(costs, Arbitraries.of(true, false)).as(Exit::new).optional(0.7);
    Arbitrary<CauseId> causes = Arbitraries.of(List.copyOf(BenchPack.PACK.causes().keySet()));
    Arbitrary<List<ComesBack>> comebacks =
        Arbitraries.of(0.1, 0.7)
            .map(p -> new ComesBack(new ComplaintId("dead"), p))
            .list()
            .ofMaxSize(1);
    Arbitrary<List<Inspection>> inspections =
        Combinators.combine(some, causes, money).as(Inspection::new).list().ofMaxSize(2);
    Arbitrary<List<RootFirst>> roots =
        Combinators.combine(some, causes, causes).as(RootFirst::new).list().ofMaxSize(2);
    Arbitrary<Summary> plain =
        Combinators.combine(leaders, functions, tests, rereads, repairs, exits)
            .as(
                (l, f, t, r, p, e) ->
                    new Summary(
                        l, f, t, r, p, e, List.of(), List.of(), List.of(), Optional.empty()));
    return Combinators.combine(plain, comebacks, inspections, roots)
        .as(
            (s, c, i, r) ->
                new Summary(
                    s.leaders(),
                    s.functions(),
                    s.tests(),
                    s.rereads(),
                    s.repairs(),
                    s.exit(),
                    c,
                    i,
                    r,
                    Optional.empty()));
  }
}
