package org.faultwright.rules;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Basis;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Change;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.ModeId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.ToolId;

/** A step in the making, for tests of the rules: all that bears on when it is open. */
final class StepDraft {
  private final StepId id;
  private Optional<Comparison> compares = Optional.empty();
  private final Set<BenchState> bench = new LinkedHashSet<>();
  private final Set<ComplaintId> working = new LinkedHashSet<>();
  private Condition onlyIf = new Condition.Always();
  private final Set<StepId> after = new LinkedHashSet<>();
  private final Set<ToolId> tools = new LinkedHashSet<>();
  private final Set<ConsentId> consent = new LinkedHashSet<>();
  private Optional<Step.Skill> skill = Optional.empty();
  private Optional<Observation> shows = Optional.empty();
  private Optional<ComplaintId> proves = Optional.empty();
  private final List<Point> points = new ArrayList<>();
  private final Map<CauseId, Change> changes = new LinkedHashMap<>();
  private Optional<StepId> thenRepeat = Optional.empty();
  private boolean repeatable;
  private double copies = 1;
  private boolean dataRisk;
  private final Set<CautionId> cautions = new LinkedHashSet<>();
  private final Set<ActivityId> does = new LinkedHashSet<>();
  private final Set<BoardId> boards = new LinkedHashSet<>();

  StepDraft(String id) {
    this.id = new StepId(id);
  }

  static Chance chance(double p) {
    return Chance.of(p, new Basis.Invented());
  }

  StepDraft on(String of) {
    bench.add(new BenchState(Scene.sw(of), true));
    return this;
  }

  StepDraft off(String of) {
    bench.add(new BenchState(Scene.sw(of), false));
    return this;
  }

  StepDraft needsWorking(String complaint) {
    working.add(new ComplaintId(complaint));
    return this;
  }

  StepDraft onlyIf(Condition condition) {
    onlyIf = condition;
    return this;
  }

  StepDraft waitsFor(String step) {
    after.add(new StepId(step));
    return this;
  }

  StepDraft tool(String tool) {
    tools.add(new ToolId(tool));
    return this;
  }

  StepDraft consent(String id) {
    consent.add(new ConsentId(id));
    return this;
  }

  StepDraft skill(Step.Skill asked) {
    skill = Optional.of(asked);
    return this;
  }

  StepDraft looksAt(NodeId node) {
    shows =
        Optional.of(
            new Observation.OfNode(
                node, chance(0.9), chance(0.1), OutcomeId.POSITIVE, OutcomeId.NEGATIVE));
    return this;
  }

  StepDraft proves(String complaint, NodeId event) {
    proves = Optional.of(new ComplaintId(complaint));
    shows =
        Optional.of(
            new Observation.OfNode(
                event,
                chance(0.99),
                chance(0.01),
                new OutcomeId("failed"),
                new OutcomeId("passed")));
    return this;
  }

  StepDraft reads(Point point) {
    points.add(point);
    return this;
  }

  StepDraft changes(String cause) {
    changes.put(new CauseId(cause), new Change(chance(0.8), chance(0)));
    return this;
  }

  StepDraft thenRepeat(String step) {
    thenRepeat = Optional.of(new StepId(step));
    return this;
  }

  StepDraft repeatable() {
    repeatable = true;
    return this;
  }

  StepDraft copies(double kappa) {
    copies = kappa;
    return this;
  }

  StepDraft dataRisk() {
    dataRisk = true;
    return this;
  }

  StepDraft caution(String id) {
    cautions.add(new CautionId(id));
    return this;
  }

  StepDraft does(String activity) {
    does.add(new ActivityId(activity));
    return this;
  }

  StepDraft board(String id) {
    boards.add(new BoardId(id));
    return this;
  }

  StepDraft compares(String point, String with, double differsBy, String cause) {
    compares = Optional.of(new Comparison(new PointId(point), new PointId(with), differsBy, false));
    shows = Optional.of(Comparison.toTheEye(Map.of(new CauseId(cause), Chance.byDefinition(1))));
    return this;
  }

  Step build() {
    return new Step(
        id,
        "Do " + id,
        "",
        Effort.NONE,
        0,
        new Step.Needs(bench, working, onlyIf, after, tools, consent, skill),
        ModeId.AT_REST,
        shows,
        proves,
        points.isEmpty()
            ? Optional.empty()
            : Optional.of(
                new Step.PinTable(
                    Optional.of("red-on-ground"), Optional.of(new InstrumentId("meter")), points)),
        changes,
        Optional.empty(),
        List.of(),
        thenRepeat,
        repeatable,
        copies,
        dataRisk,
        List.of(),
        cautions,
        does,
        boards,
        compares);
  }
}
