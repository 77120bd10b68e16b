package org.faultwright.rules;

import static org.faultwright.rules.StepDraft.chance;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.faultwright.measurement.Accuracy;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.Basis;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Cause;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Caution;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Chance;
import org.faultwright.pack.Clash;
import org.faultwright.pack.Complaint;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Effort;
import org.faultwright.pack.Event;
import org.faultwright.pack.EventId;
import org.faultwright.pack.History;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Hold;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.Instrument;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.NodeId;
import org.faultwright.pack.Observation;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackDraft;
import org.faultwright.pack.PackId;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StateId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.Switch;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.Symptom;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.ToolId;

/** One invented pack in which every rule has something to decide. */
public final class BenchPack {
  public static final Pack PACK = build();
  static final PackRules RULES = RuleBase.shared().forPack(PACK);

  private BenchPack() {}

  private static Pack build() {
    PackDraft pack = new PackDraft(PackId.parse("bench/rules"));
    pack.invented = true;
    pack.boards.addAll(Set.of(new BoardId("rev-a"), new BoardId("rev-b")));
    pack.tools.put(new ToolId("camera"), "thermal camera");
    pack.tools.put(new ToolId("jig"), "pressing jig");
    pack.consents.put(new ConsentId("opening"), "opening the device");
    pack.consents.put(new ConsentId("board-work"), "work on the board");
    for (String each : List.of("prying", "charging", "heating", "soldering")) {
      pack.activities.put(new ActivityId(each), each);
    }
    pack.caution(new Caution(new CautionId("glass"), "Glass splinters."));
    pack.caution(new Caution(new CautionId("burns"), "Hot iron."));
    pack.instrument(
        new Instrument(
            new InstrumentId("meter"),
            "meter",
            Optional.of(new Accuracy(0.005, 0.001, 0.001)),
            new Basis.Invented()));
    pack.instrument(
        new Instrument(new InstrumentId("scope"), "scope", Optional.empty(), new Basis.Invented()));
    switches(pack);
    tree(pack);
    tests(pack);
    repairs(pack);
    holds(pack);
    return pack.build();
  }

  private static void switches(PackDraft pack) {
    pack.benchSwitch(
        new Switch(
            new SwitchId("opened"),
            "device open",
            new SwitchId("shut"),
            false,
            Optional.of(turn(Set.of(), Set.of("opening"), Set.of("prying"), Set.of("glass"))),
            Optional.of(turn(Set.of(), Set.of(), Set.of(), Set.of())),
            Set.of(),
            true));
    pack.benchSwitch(
        new Switch(
            new SwitchId("battery-connected"),
            "battery connected",
            new SwitchId("battery-disconnected"),
            true,
            Optional.of(turn(Set.of(on("opened")), Set.of(), Set.of(), Set.of())),
            Optional.of(turn(Set.of(on("opened")), Set.of(), Set.of(), Set.of())),
            Set.of(),
            false));
    pack.benchSwitch(
        new Switch(
            new SwitchId("supply-on"),
            "bench supply on",
            new SwitchId("supply-off"),
            false,
            Optional.of(turn(Set.of(), Set.of(), Set.of(), Set.of())),
            Optional.of(turn(Set.of(), Set.of(), Set.of(), Set.of())),
            Set.of(new ActivityId("charging")),
            false));
    pack.benchSwitch(
        new Switch(
            new SwitchId("warmed"),
            "warmed",
            new SwitchId("cold"),
            false,
            Optional.of(turn(Set.of(), Set.of(), Set.of("heating"), Set.of())),
            Optional.empty(),
            Set.of(new ActivityId("heating")),
            false));
    pack.benchSwitch(
        new Switch(
            new SwitchId("unlocked"),
            "unlocked",
            new SwitchId("locked"),
            false,
            Optional.empty(),
            Optional.empty(),
            Set.of(),
            false));
  }

  private static Switch.Turn turn(
      Set<BenchState> needs, Set<String> consent, Set<String> does, Set<String> cautions) {
    Set<ConsentId> consents = new LinkedHashSet<>();
    consent.forEach(c -> consents.add(new ConsentId(c)));
    Set<ActivityId> activities = new LinkedHashSet<>();
    does.forEach(a -> activities.add(new ActivityId(a)));
    Set<CautionId> warnings = new LinkedHashSet<>();
    cautions.forEach(c -> warnings.add(new CautionId(c)));
    return new Switch.Turn(Effort.NONE, needs, consents, activities, warnings, 0);
  }

  private static BenchState on(String of) {
    return new BenchState(new SwitchId(of), true);
  }

  private static void tree(PackDraft pack) {
    cause(pack, "lint", Cause.Kind.FAULT, false);
    cause(pack, "worn", Cause.Kind.FAULT, false);
    cause(pack, "chip", Cause.Kind.FAULT, true);
    cause(pack, "blown", Cause.Kind.FAULT, false);
    cause(pack, "cable", Cause.Kind.OUTSIDE, false);
    cause(pack, "speaker", Cause.Kind.FAULT, false);
    cause(pack, "unlisted", Cause.Kind.UNLISTED, false);
    event(pack, "no-power", "lint", "worn", "chip", "blown", "cable", "unlisted");
    event(pack, "no-sound", "speaker");
    complaint(pack, "dead", "no-power", false);
    complaint(pack, "mute", "no-sound", true);
    pack.symptom(
        new Symptom(new SymptomId("swollen"), "swollen battery", Optional.empty(), chance(0.5)));
    pack.symptom(new Symptom(new SymptomId("smell"), "burnt smell", Optional.empty(), chance(0.5)));
    pack.symptom(
        new Symptom(new SymptomId("wet-board"), "wet board", Optional.empty(), chance(0.5)));
    pack.symptom(
        new Symptom(
            new SymptomId("crackle"),
            "crackle",
            Optional.of(
                new Observation.OfNode(
                    new CauseId("speaker"),
                    chance(0.9),
                    chance(0.1),
                    OutcomeId.POSITIVE,
                    OutcomeId.NEGATIVE)),
            chance(0.5)));
    History.Witness witness = new History.Witness(chance(0.7), chance(0.1));
    pack.history(
        new History(
            new HistoryId("liquid"),
            "liquid",
            chance(0.1),
            Optional.of(witness),
            Optional.of(witness)));
  }

  private static void cause(PackDraft pack, String id, Cause.Kind kind, boolean sendOn) {
    pack.cause(
        new Cause(
            new CauseId(id),
            id,
            kind,
            new Cause.Likelihood.Prior(chance(0.01)),
            Optional.empty(),
            Map.of(),
            Map.of(),
            Map.of(),
            sendOn));
  }

  private static void event(PackDraft pack, String id, String... causes) {
    Map<NodeId, Chance> inputs = new LinkedHashMap<>();
    for (String each : causes) {
      inputs.put(new CauseId(each), Chance.byDefinition(1));
    }
    pack.event(
        new Event(
            new EventId(id), id, new Event.Combination.Any(), inputs, Chance.byDefinition(0)));
  }

  private static void complaint(PackDraft pack, String id, String event, boolean countsClosed) {
    pack.complaint(
        new Complaint(
            new ComplaintId(id), id, new EventId(event), chance(0), chance(0.05), countsClosed));
  }

  private static void tests(PackDraft pack) {
    step(pack, new StepDraft("look").looksAt(new CauseId("lint")));
    step(pack, new StepDraft("listen").looksAt(new CauseId("speaker")).copies(0.5));
    step(
        pack,
        new StepDraft("probe")
            .on("opened")
            .off("battery-connected")
            .reads(point("gate", "lint", Set.of()))
            .reads(point("rail", "worn", Set.of("rev-b"))));
    step(pack, new StepDraft("power-test").proves("dead", new EventId("no-power")));
    step(pack, new StepDraft("long-test").proves("dead", new EventId("no-power")).copies(0.5));
    step(pack, new StepDraft("sound-test").proves("mute", new EventId("no-sound")));
    step(pack, new StepDraft("read-log").needsWorking("dead").looksAt(new CauseId("worn")));
    step(
        pack,
        new StepDraft("look-deeper")
            .onlyIf(new Condition.OutcomeIs(new StepId("look"), OutcomeId.POSITIVE))
            .looksAt(new CauseId("lint")));
    step(pack, new StepDraft("look-after").waitsFor("look").looksAt(new CauseId("lint")));
    step(pack, new StepDraft("look-b").board("rev-b").looksAt(new CauseId("lint")));
    step(pack, new StepDraft("image").tool("camera").looksAt(new CauseId("worn")));
    step(pack, new StepDraft("charge").on("supply-on").looksAt(new CauseId("worn")));
    step(pack, new StepDraft("warm-check").on("warmed").looksAt(new CauseId("worn")));
    step(pack, new StepDraft("settings").on("unlocked").looksAt(new CauseId("worn")));
    step(pack, new StepDraft("compare").compares("gate", "rail", 0.01, "worn"));
  }

  private static void repairs(PackDraft pack) {
    step(pack, new StepDraft("clean").changes("lint").thenRepeat("power-test"));
    step(pack, new StepDraft("scrub").changes("lint").repeatable());
    step(
        pack,
        new StepDraft("solder")
            .on("opened")
            .consent("board-work")
            .changes("worn")
            .does("soldering")
            .caution("burns"));
    step(pack, new StepDraft("rework").skill(Step.Skill.LICENSED).changes("blown"));
    step(pack, new StepDraft("press").tool("jig").changes("worn"));
    step(pack, new StepDraft("swap-cable").changes("cable"));
    step(pack, new StepDraft("mend-speaker").on("opened").changes("speaker"));
    step(pack, new StepDraft("reset").dataRisk().changes("unlisted"));
    step(pack, new StepDraft("back-up-data"));
    step(pack, new StepDraft("remove-battery"));
    step(pack, new StepDraft("dry").consent("board-work"));
  }

  private static void holds(PackDraft pack) {
    hold(
        pack,
        "swollen-battery",
        present("swollen"),
        Set.of("charging", "heating"),
        new Condition.Done(new StepId("remove-battery")));
    hold(
        pack,
        "wet",
        present("wet-board"),
        Set.of("charging"),
        new Condition.Done(new StepId("dry")));
    hold(
        pack,
        "smoke",
        present("smell"),
        Set.of("soldering"),
        new Condition.BenchIs(new BenchState(new SwitchId("supply-on"), false)));
    hold(
        pack,
        "leaking",
        new Condition.All(List.of(present("wet-board"), present("smell"))),
        Set.of("prying"),
        new Condition.SymptomIs(new SymptomId("wet-board"), SymptomValue.ABSENT));
    hold(
        pack,
        "short",
        new Condition.ReadingIs(new PointId("gate"), new StateId("short")),
        Set.of("charging"),
        new Condition.ReadingIs(new PointId("gate"), StateId.NORMAL));
    pack.clashes.add(
        new Clash(
            List.of(present("swollen"), new Condition.HistoryIs(new HistoryId("liquid"), false)),
            "a battery swells for a reason"));
  }

  private static Condition present(String symptom) {
    return new Condition.SymptomIs(new SymptomId(symptom), SymptomValue.PRESENT);
  }

  private static void hold(
      PackDraft pack, String id, Condition when, Set<String> forbids, Condition until) {
    Set<ActivityId> activities = new LinkedHashSet<>();
    forbids.stream().sorted().forEach(a -> activities.add(new ActivityId(a)));
    pack.hold(new Hold(new HoldId(id), when, activities, until, "Danger: " + id));
  }

  private static Point point(String id, String cause, Set<String> boards) {
    Set<BoardId> on = new LinkedHashSet<>();
    boards.forEach(b -> on.add(new BoardId(b)));
    return new Point(
        new PointId(id),
        id,
        Optional.empty(),
        new Reference.Around(Dimension.VOLTAGE, 0.6, 0.05),
        new Basis.Invented(),
        List.of(
            new Point.ReadingState(
                new StateId("short"),
                Map.of(new CauseId(cause), Chance.byDefinition(1)),
                Optional.of(
                    new Reference.Within(
                        Dimension.VOLTAGE, OptionalDouble.of(0), OptionalDouble.of(0.3))))),
        on);
  }

  private static void step(PackDraft pack, StepDraft step) {
    pack.step(step.build());
  }
}
