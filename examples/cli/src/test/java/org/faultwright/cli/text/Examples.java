package org.faultwright.cli.text;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.casefile.Attempts;
import org.faultwright.casefile.CaseFile;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Guard;
import org.faultwright.casefile.Intake;
import org.faultwright.casefile.JudgedReading;
import org.faultwright.casefile.Situation;
import org.faultwright.casefile.Told;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Considered;
import org.faultwright.diagnosis.Outlook;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.explanation.Weight;
import org.faultwright.explanation.WhyCause;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Basis;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.Goal;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.Hold;
import org.faultwright.pack.HoldId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.planning.Shop;
import org.faultwright.planning.Spend;
import org.faultwright.rules.Advice;
import org.faultwright.rules.AdviceSet;
import org.faultwright.rules.Alarm;
import org.faultwright.rules.Blocked;
import org.faultwright.rules.Conflict;
import org.faultwright.rules.Findings;
import org.faultwright.rules.HoldInForce;
import org.faultwright.rules.Reason;
import org.faultwright.rules.Standing;
import org.faultwright.rules.StepStatus;

/** Answers made by hand, so that every line of a text has its turn. Their numbers mean nothing. */
final class Examples {

  static final Pack PACK = pack();

  private static final BenchState DEVICE_OPEN = new BenchState(new SwitchId("device-open"), true);
  private static final BenchState SOUND_OFF = new BenchState(new SwitchId("sound-on"), false);
  private static final CautionId CELL = new CautionId("cell-puncture");

  private static final CaseFile CASE =
      CaseFile.empty(PACK.id(), Intake.PLAIN)
          .with(new Fact.Complained(new ComplaintId("no-sound"), true))
          .with(new Fact.HistorySaid(new HistoryId("dropped"), true))
          .with(new Fact.OutcomeSeen(new StepId("look-at-grille"), new OutcomeId("clean")))
          .with(new Fact.SymptomNoted(new SymptomId("crackles"), SymptomValue.SOMETIMES))
          .with(
              new Fact.ReadingTaken(
                  new PointId("coil"),
                  new ReadingValue.Measured(Quantity.parse("8.8 ohm")),
                  OptionalDouble.empty(),
                  Fact.Setup.AS_STATED))
          .with(new Fact.OutcomeSeen(new StepId("look-at-grille"), new OutcomeId("packed")));

  private Examples() {}

  private static Pack pack() {
    PackReading reading =
        new PackReader().read(Path.of("src/test/resources/packs/plover-tablet/sound/pack.yaml"));
    return ((PackReading.Readable) reading).pack();
  }

  /** A ranking, a test that needs the device opened, and facts to look at again. */
  static Answer ranked() {
    Advice test =
        new Advice(
            Advice.Kind.TEST,
            Optional.of(new StepId("coil-ohms")),
            List.of(new Reason(Reason.Why.WORTH, "it is worth more than it costs")),
            List.of(SOUND_OFF, DEVICE_OPEN),
            Set.of(CELL),
            Set.of(),
            Set.of());
    Advice press = advice(Advice.Kind.TEST, "press-check", Reason.Why.WORTH, "worth its cost");
    Advice restart =
        advice(Advice.Kind.REPAIR, "restart", Reason.Why.CHEAPEST, "cheaper than the rest");
    Advice giveBack =
        new Advice(
            Advice.Kind.RETURN,
            Optional.empty(),
            List.of(new Reason(Reason.Why.NOTHING_LEFT, "nothing that is open is worth its cost")),
            List.of(),
            Set.of(),
            Set.of(),
            Set.of());
    Conflict apart =
        new Conflict(
            Conflict.Kind.CLASH,
            Set.of(new FactId(4)),
            "#4 does not go with a loudspeaker that is quiet all the time");
    return answer(
        posterior(),
        findings(List.of(apart), List.of(), List.of()),
        new AdviceSet(test, List.of(press, restart, giveBack, giveBack), List.of(apart)));
  }

  /** Danger. */
  static Answer alarming() {
    Hold hold = PACK.holds().get(new HoldId("bulging-battery"));
    Alarm alarm = new Alarm(hold.id(), SOUND_OFF, hold.says() + "; now: sound-off");
    Advice safe =
        new Advice(
            Advice.Kind.MAKE_SAFE,
            Optional.empty(),
            List.of(new Reason(Reason.Why.ALARM, alarm.words())),
            List.of(SOUND_OFF),
            Set.of(),
            Set.of(),
            Set.of());
    return answer(
        posterior(),
        findings(List.of(), List.of(new HoldInForce(hold, Set.of(new FactId(4)))), List.of(alarm)),
        new AdviceSet(safe, List.of(), List.of()));
  }

  /** A question to the customer. */
  static Answer asking() {
    Advice ask =
        new Advice(
            Advice.Kind.ASK,
            Optional.of(new StepId("fit-speaker")),
            List.of(
                new Reason(
                    Reason.Why.CONSENT_TO_REPAIR,
                    "the repair to expect most of, but the customer has not agreed yet")),
            List.of(DEVICE_OPEN),
            Set.of(CELL),
            Set.of(new ConsentId("opening")),
            Set.of());
    return answer(
        new Posterior(
            List.of(
                ranked("speaker-open", 0.9623),
                ranked("joint-cracked", 0.0512),
                ranked("amp-dead", 0.0432),
                ranked("unlisted", 0.0004)),
            Map.of(new ComplaintId("no-sound"), 1.0),
            -5.1),
        findings(List.of(), List.of(), List.of()),
        new AdviceSet(ask, List.of(), List.of()));
  }

  /** Facts that cannot all be true. */
  static Answer impossible() {
    Conflict conflict =
        new Conflict(
            Conflict.Kind.REPEAT_DIFFERS,
            Set.of(new FactId(3), new FactId(6)),
            "the grille was clean and then packed, and nothing was changed in between");
    Advice again =
        new Advice(
            Advice.Kind.READ_AGAIN,
            Optional.of(new StepId("look-at-grille")),
            List.of(
                new Reason(
                    Reason.Why.CONFLICT, "by the pack's numbers no device can show #3 and #6")),
            List.of(),
            Set.of(),
            Set.of(),
            Set.of(new FactId(6)));
    Set<FactId> clash = new java.util.LinkedHashSet<>(List.of(new FactId(3), new FactId(6)));
    return answer(
        new Outlook.ImpossibleEvidence(clash),
        findings(List.of(conflict), List.of(), List.of()),
        new AdviceSet(again, List.of(), List.of(conflict)));
  }

  /** More than can be worked out. */
  static Answer tooWide() {
    Answer ranked = ranked();
    return answer(new Outlook.OverBudget(3e8, 4e6), ranked.findings(), ranked.advice());
  }

  /** Why the leader leads. */
  static WhyCause why() {
    return new WhyCause(
        new CauseId("joint-cracked"),
        0.1604,
        0.617,
        List.of(
            weight(3, new Weight.Finite(12.3)),
            weight(4, new Weight.Finite(2.2)),
            weight(2, new Weight.Finite(0.4)),
            weight(5, new Weight.Finite(-4.5)),
            weight(6, new Weight.RulesOut())),
        List.of(new Basis.Invented(), new Basis.Counted(4, 30, "no-sound")),
        List.of(
            new WhyCause.WouldChange(
                new StepId("press-check"), new OutcomeId("steady"), 0.2149, 0.0004),
            new WhyCause.WouldChange(
                new StepId("press-check"), new OutcomeId("comes-and-goes"), 0.7851, 0.84)));
  }

  private static Posterior posterior() {
    return new Posterior(
        List.of(
            ranked("joint-cracked", 0.617),
            ranked("speaker-open", 0.2951),
            ranked("amp-dead", 0.0432),
            ranked("software-muted", 0.0031),
            ranked("grille-clogged", 0.00002),
            ranked("unlisted", 0.00001),
            ranked("new-speaker-bad", 0)),
        Map.of(new ComplaintId("no-sound"), 1.0),
        -4.2);
  }

  private static Answer answer(Outlook outlook, Findings findings, AdviceSet advice) {
    List<Considered> steps = new ArrayList<>();
    findings
        .steps()
        .values()
        .forEach(
            status -> {
              boolean coil = status.step().value().equals("coil-ohms");
              boolean press = status.step().value().equals("press-check");
              steps.add(
                  new Considered(
                      status.step(),
                      status,
                      coil
                          ? OptionalDouble.of(9.3)
                          : press ? OptionalDouble.of(7.05) : OptionalDouble.empty(),
                      coil || press ? OptionalDouble.of(10.2) : OptionalDouble.empty(),
                      coil
                          ? Optional.of(new Spend(18, 20, 9.5, 3.2))
                          : press ? Optional.of(new Spend(16, 22, 12.3, 4.55)) : Optional.empty(),
                      press ? outcomes("comes-and-goes", 0.7851, "steady", 0.2149) : Map.of()));
            });
    return new Answer(
        CASE,
        findings,
        outlook,
        steps,
        OptionalDouble.of(31.7),
        OptionalDouble.empty(),
        Map.of(),
        0,
        advice,
        Shop.ORDINARY,
        CASE.facts().stream().flatMap(t -> JudgedReading.of(PACK, t, 0).stream()).toList());
  }

  private static Map<OutcomeId, Double> outcomes(String one, double p, String other, double q) {
    Map<OutcomeId, Double> outcomes = new LinkedHashMap<>();
    outcomes.put(new OutcomeId(other), q);
    outcomes.put(new OutcomeId(one), p);
    return outcomes;
  }

  private static Findings findings(
      List<Conflict> conflicts, List<HoldInForce> holds, List<Alarm> alarms) {
    List<Standing> standings =
        CASE.facts().stream()
            .map(
                told ->
                    switch (told.id().number()) {
                      case 3 ->
                          new Standing(
                              told,
                              Standing.Verdict.CORRECTED,
                              Set.of(),
                              List.of("#6 says otherwise and came later"));
                      case 5 ->
                          new Standing(
                              told,
                              Standing.Verdict.STANDS,
                              Set.of(Standing.Mark.ON_LIMIT),
                              List.of("it lies so close to a limit that it counts for little"));
                      default -> new Standing(told, Standing.Verdict.STANDS, Set.of(), List.of());
                    })
            .toList();
    Map<StepId, StepStatus> steps = new LinkedHashMap<>();
    PACK.steps()
        .keySet()
        .forEach(
            id ->
                steps.put(
                    id,
                    new StepStatus(
                        id,
                        new Guard(new Condition.Always()),
                        id.value().equals("feed-amplifier") ? blocked() : List.of(),
                        List.of(),
                        Set.of())));
    return new Findings(
        standings,
        conflicts,
        holds,
        Set.of(),
        alarms,
        steps,
        Map.of(),
        Set.of(),
        true,
        new Situation(
            Map.of(),
            Map.of(),
            Map.of(),
            Map.of(),
            Set.of(),
            Set.of(),
            Map.of(),
            Map.of(),
            Goal.WORKING,
            Optional.empty()),
        new Attempts(List.of()));
  }

  private static List<Blocked> blocked() {
    return Stream.of(
            new Blocked(
                Blocked.Kind.LACKS_CONSENT,
                "the customer has not been asked: solder work on the main board",
                "ask the customer",
                Optional.empty(),
                Optional.of(new ConsentId("board-work"))),
            new Blocked(
                Blocked.Kind.CONDITION_NOT_MET,
                "Coil: normal comes first",
                "",
                Optional.empty(),
                Optional.empty()))
        .toList();
  }

  private static Advice advice(Advice.Kind kind, String step, Reason.Why why, String words) {
    return new Advice(
        kind,
        Optional.of(new StepId(step)),
        List.of(new Reason(why, words)),
        List.of(),
        Set.of(),
        Set.of(),
        Set.of());
  }

  private static Posterior.Ranked ranked(String cause, double p) {
    return new Posterior.Ranked(new CauseId(cause), p, 0.01);
  }

  private static WhyCause.FactWeight weight(int fact, Weight weight) {
    Told told = CASE.facts().get(fact - 1);
    return new WhyCause.FactWeight(told, weight);
  }
}
