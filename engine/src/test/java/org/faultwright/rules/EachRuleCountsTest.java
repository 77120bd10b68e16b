package org.faultwright.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.faultwright.rules.Scene.off;
import static org.faultwright.rules.Scene.on;
import static org.faultwright.rules.Scene.setup;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Guard;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.Condition;
import org.faultwright.pack.Conventions;
import org.faultwright.pack.Goal;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.rules.Advice.Kind;
import org.faultwright.rules.Reason.Why;
import org.faultwright.rules.Scene.Result;
import org.faultwright.rules.Standing.Mark;
import org.faultwright.rules.Standing.Verdict;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** For each rule a case that comes out right with it and wrong without it. */
class EachRuleCountsTest {
  private record Case(Scene scene, Predicate<Result> right) {}

  private final Map<String, Case> cases = new LinkedHashMap<>();

  EachRuleCountsTest() {
    standing();
    conflicts();
    safety();
    guards();
    blocked();
    danger();
    proof();
    lasting();
    looking();
    settling();
    ranking();
  }

  private void rule(String name, Scene scene, Predicate<Result> right) {
    assertThat(cases.put(name, new Case(scene, right))).as("one case for each rule").isNull();
  }

  @Test
  void everyRule_hasItsCase() {
    Set<String> rules = new LinkedHashSet<>();
    RuleBase.shared()
        .rules()
        .getKiePackages()
        .forEach(p -> p.getRules().forEach(r -> rules.add(r.getName())));
    assertThat(cases.keySet()).containsExactlyInAnyOrderElementsOf(rules);
  }

  @TestFactory
  Stream<DynamicTest> rule_isMissed_whenLeftOut() {
    return cases.entrySet().stream()
        .map(
            each ->
                dynamicTest(
                    each.getKey(),
                    () -> {
                      Case of = each.getValue();
                      Result with = of.scene.result();
                      assertThat(of.right.test(with))
                          .as("with the rule: %s", with.advice().primary())
                          .isTrue();
                      assertThat(comesOutRight(of, r -> !r.equals(each.getKey())))
                          .as("without the rule")
                          .isFalse();
                    }));
  }

  private static boolean comesOutRight(Case of, Predicate<String> kept) {
    Result without;
    try {
      without = of.scene.result(kept);
    } catch (IllegalStateException noSingleFirst) {
      assertThat(noSingleFirst).hasMessageStartingWith("exactly one candidate must be outranked");
      return false;
    }
    return of.right.test(without);
  }

  private void standing() {
    rule(
        "a later fact about the same thing replaces an earlier one",
        new Scene().present("swollen").symptom("swollen", SymptomValue.ABSENT),
        r -> r.fact(1).verdict() == Verdict.CORRECTED && r.fact(2).counts());
    rule(
        "a reading under another setup than the step's tells nothing",
        new Scene().reads("gate", 0.6, setup("black-on-ground", "meter")),
        r -> r.fact(1).verdict() == Verdict.WRONG_SETUP);
    rule(
        "a step that was carried out had the bench that it needs",
        new Scene().reads("gate", 0.6),
        r -> r.findings().bench().contains(on("opened")));
    rule(
        "a deed had the bench that it needs",
        new Scene().did("solder"),
        r -> r.findings().bench().contains(on("opened")));
    rule(
        "what is seen while the bench is said to stand otherwise tells nothing",
        new Scene().bench(off("opened")).reads("gate", 0.6),
        r -> r.fact(2).verdict() == Verdict.WRONG_SETUP);
    rule(
        "an attempt since then can have changed what a fact tells of",
        new Scene().outcome("look", "positive").did("clean"),
        r -> r.fact(1).marks().contains(Mark.BEFORE_CHANGE) && r.fact(1).counts());
    rule(
        "a reading on a limit counts for little",
        new Scene().reads("gate", 0.65),
        r -> r.fact(1).marks().contains(Mark.ON_LIMIT));
    rule(
        "what counts and was not changed since tells of the device as it is",
        new Scene().outcome("look", "positive"),
        r -> !r.open("look"));
  }

  private void conflicts() {
    rule(
        "the pack says that facts exclude each other",
        new Scene().saysLiquid(false).present("swollen"),
        r -> r.conflict(Conflict.Kind.CLASH));
    rule(
        "a step that always answers the same way came out differently",
        new Scene().outcome("look", "positive").outcome("look", "negative"),
        r -> r.conflict(Conflict.Kind.REPEAT_DIFFERS));
    rule(
        "readings of one point lie further apart than their uncertainty",
        new Scene().reads("gate", 0.6).reads("gate", 0.2),
        r -> r.conflict(Conflict.Kind.READINGS_APART));
    rule(
        "the customer denies what the function test shows",
        new Scene().denies("dead").outcome("power-test", "failed"),
        r -> r.conflict(Conflict.Kind.DENIED_YET_LOST));
    rule(
        "no device can show them all",
        new Scene().reports("dead").outcome("look", "positive").impossible(1, 2),
        r -> r.conflict(Conflict.Kind.IMPOSSIBLE));
  }

  private void safety() {
    rule("a hold rises", new Scene().present("swollen"), r -> r.findings().holds().size() == 1);
    rule(
        "a hold is lifted",
        new Scene().present("swollen").did("remove-battery"),
        r -> r.findings().holds().isEmpty() && r.findings().lifted().size() == 1);
    rule(
        "a hold that has risen and is not lifted is in force",
        new Scene().present("swollen"),
        r -> r.findings().holds().size() == 1);
    rule(
        "a hold in force forbids what it names until it is lifted",
        new Scene().present("swollen"),
        r -> r.blocked("charge", Blocked.Kind.SWITCH_HELD));
    rule(
        "a hold that may rise forbids what it names then",
        new Scene().agreed("opening", "board-work"),
        r -> {
          Guard guard = r.findings().step(new StepId("solder")).guard();
          Result smoke =
              new Scene()
                  .agreed("opening", "board-work")
                  .bench(on("supply-on"))
                  .present("smell")
                  .result();
          return guard.holdsIn(r.findings().situation())
              && !guard.holdsIn(smoke.findings().situation());
        });
    rule(
        "what a hold forbids is going on",
        new Scene().bench(on("supply-on")).present("swollen"),
        r -> r.findings().alarms().size() == 1);
    rule(
        "the way out of what is going on",
        new Scene().bench(on("supply-on")).present("swollen"),
        r -> r.advice().primary().turns().equals(List.of(off("supply-on"))));
    rule(
        "the way to a bench position that lifts a hold",
        new Scene().bench(on("supply-on")).present("smell"),
        r -> r.advice().primary().turns().equals(List.of(off("supply-on"))));
    rule(
        "the way to a closed device",
        new Scene()
            .reports("dead")
            .bench(on("opened"))
            .did("clean")
            .outcome("power-test", "passed"),
        r -> r.advice().primary().turns().equals(List.of(off("opened"))));
    rule(
        "a step's own cautions stand beside it",
        new Scene(),
        r -> cautions(r, "solder").contains(new CautionId("burns")));
    rule(
        "the cautions of getting the bench ready stand beside a step",
        new Scene(),
        r -> cautions(r, "probe").contains(new CautionId("glass")));
  }

  private static Set<CautionId> cautions(Result r, String step) {
    return r.findings().step(new StepId(step)).cautions();
  }

  private void guards() {
    rule(
        "what the customer must agree to",
        new Scene().agreed("opening"),
        r -> r.blocked("solder", Blocked.Kind.LACKS_CONSENT));
    rule(
        "a step that needs a function waits until it is back",
        new Scene().reports("dead"),
        r -> r.blocked("read-log", Blocked.Kind.NEEDS_WORKING));
    rule(
        "a step that states a condition waits for it",
        new Scene(),
        r -> r.blocked("look-deeper", Blocked.Kind.CONDITION_NOT_MET));
    rule(
        "a step waits for the steps before it",
        new Scene(),
        r -> r.blocked("look-after", Blocked.Kind.WAITS_FOR));
    rule(
        "a step for certain boards is for no other",
        new Scene().board("rev-a"),
        r -> r.blocked("look-b", Blocked.Kind.WRONG_BOARD));
    rule(
        "what can lose data waits until they are safe",
        new Scene().irreplaceableData(),
        r -> r.blocked("reset", Blocked.Kind.DATA_AT_RISK));
    rule(
        "nothing is repaired before the customer knows the price",
        new Scene().goal(Goal.ESTIMATE),
        r -> r.blocked("clean", Blocked.Kind.GOAL) && r.open("look"));
    rule(
        "nothing is repaired once the data are safe that alone were wanted",
        new Scene().goal(Goal.DATA_ONLY).did("back-up-data"),
        r -> r.blocked("clean", Blocked.Kind.GOAL));
    rule(
        "a guard asks for all of its parts",
        new Scene(),
        r ->
            r.findings()
                .step(new StepId("look-after"))
                .guard()
                .condition()
                .equals(new Condition.Done(new StepId("look"))));
    rule(
        "a requirement that is not met blocks",
        new Scene().reports("dead"),
        r -> r.blocked("read-log", Blocked.Kind.NEEDS_WORKING));
    rule(
        "a consent not yet given blocks",
        new Scene().agreed("opening"),
        r -> r.blocked("solder", Blocked.Kind.LACKS_CONSENT));
    rule(
        "a refusal blocks",
        new Scene().agreed("opening").consent("board-work", false),
        r -> r.blocked("solder", Blocked.Kind.REFUSED_CONSENT));
  }

  private void blocked() {
    rule(
        "a step whose tool the shop lacks is for another shop",
        new Scene().lacks("camera"),
        r -> r.blocked("image", Blocked.Kind.LACKS_TOOL));
    rule(
        "a step that asks for more skill is for other hands",
        new Scene(),
        r -> r.blocked("rework", Blocked.Kind.LACKS_SKILL));
    rule(
        "the way to the bench that a step needs",
        new Scene().agreed("opening"),
        r ->
            r.findings()
                .step(new StepId("probe"))
                .turns()
                .equals(List.of(on("opened"), off("battery-connected"))));
    rule(
        "what needs a bench that cannot be brought about is out of reach",
        new Scene(),
        r -> r.blocked("settings", Blocked.Kind.SWITCH_UNREACHABLE));
    rule(
        "what a hold forbids on the way blocks",
        new Scene().present("wet-board").present("smell"),
        r -> r.blocked("probe", Blocked.Kind.SWITCH_HELD));
    rule(
        "what a hold forbids while a needed switch is on blocks the step",
        new Scene().bench(on("supply-on")).present("swollen"),
        r -> r.blocked("charge", Blocked.Kind.SWITCH_HELD));
    rule(
        "a consent that is missing on the way blocks",
        new Scene(),
        r -> r.blocked("probe", Blocked.Kind.LACKS_CONSENT));
    rule(
        "what could not be done is not offered again while nothing changes",
        new Scene().couldNot("look"),
        r -> r.blocked("look", Blocked.Kind.COULD_NOT_DO));
    rule(
        "what is done once is not offered again",
        new Scene().did("clean"),
        r -> r.blocked("clean", Blocked.Kind.TRIED_ALREADY));
    rule(
        "a reading off every limit settles its point",
        new Scene().agreed("opening").reads("gate", 0.6),
        r -> r.blocked("probe", Blocked.Kind.ANSWERED_ALREADY));
    rule(
        "what has been seen three times is settled, come what may",
        new Scene().agreed("opening").reads("gate", 0.65).reads("gate", 0.65).reads("gate", 0.65),
        r -> r.blocked("probe", Blocked.Kind.ANSWERED_ALREADY));
    rule(
        "an outcome that a repeat can only copy is settled",
        new Scene().outcome("look", "negative"),
        r -> r.blocked("look", Blocked.Kind.ANSWERED_ALREADY));
    rule(
        "readings of both points settle what comparing them shows",
        new Scene().agreed("opening").reads("gate", 0.6).reads("rail", 0.6),
        r -> r.blocked("compare", Blocked.Kind.ANSWERED_ALREADY));
    rule(
        "what a step shows and is not settled is still to be seen",
        new Scene(),
        r -> r.open("look"));
    rule(
        "a function that counts closed is proved once more after closing",
        repairedSpeaker().outcome("sound-test", "passed").bench(off("opened")),
        r -> r.open("sound-test"));
    rule(
        "what is settled is not asked for again",
        new Scene().outcome("look", "negative"),
        r -> r.blocked("look", Blocked.Kind.ANSWERED_ALREADY));
    rule(
        "a step that nothing blocks is open",
        new Scene().test("look", 1),
        r -> r.first(Kind.TEST, "look"));
  }

  private static Scene repairedSpeaker() {
    return new Scene().agreed("opening").reports("mute").did("mend-speaker");
  }

  private void danger() {
    rule(
        "an alarm is acted on at once",
        new Scene().bench(on("supply-on")).present("swollen"),
        r -> r.first(Kind.MAKE_SAFE, Why.ALARM));
    rule(
        "a hold is lifted by a step that does it",
        new Scene().present("swollen").test("look", 5),
        r -> r.first(Kind.MAKE_SAFE, "remove-battery"));
    rule(
        "a hold is lifted by a switch that does it",
        new Scene().bench(on("supply-on")).present("smell").test("look", 5),
        r -> r.first(Kind.MAKE_SAFE, Why.HELD));
    rule(
        "the customer is asked for what would lift a hold",
        new Scene().present("wet-board").test("look", 5),
        r -> r.first(Kind.ASK, "dry"));
    rule(
        "a hold that nothing here lifts stops the work",
        new Scene().refused("board-work").present("wet-board").test("look", 5),
        r -> r.first(Kind.STOP, Why.HELD));
    rule(
        "an alarm that nothing here ends stops the work",
        new Scene().bench(on("warmed")).couldNot("remove-battery").present("swollen"),
        r -> r.first(Kind.STOP, Why.ALARM));
    rule(
        "the data are saved where they are all that is wanted",
        new Scene().goal(Goal.DATA_ONLY).test("look", 5),
        r -> r.first(Kind.MAKE_SAFE, "back-up-data"));
    rule(
        "the data are saved before what can lose them",
        new Scene().irreplaceableData().test("look", 5),
        r -> r.first(Kind.MAKE_SAFE, "back-up-data"));
    rule(
        "the data are saved while the device still runs",
        new Scene().irreplaceableData().consent("risk-data", false).reports("dead").did("reset"),
        r -> r.first(Kind.MAKE_SAFE, "back-up-data"));
    rule(
        "data that cannot be saved first stand in the way of a repair",
        dataInTheWay().exit(10, true),
        r -> r.first(Kind.ASK, Why.RISK_TO_DATA));
    rule(
        "the customer is asked whether data that cannot be saved first may be risked",
        dataInTheWay().exit(10, true),
        r ->
            r.first(Kind.ASK, "reset")
                && r.advice().primary().consents().equals(Set.of(Conventions.RISK_DATA)));
    rule(
        "a device is sent on for the sake of its data",
        dataInTheWay().consent("risk-data", false).exit(10, true),
        r -> r.first(Kind.SEND_ON, Why.FOR_THE_DATA));
    rule(
        "the job is done once the data are safe that alone were wanted",
        new Scene().goal(Goal.DATA_ONLY).did("back-up-data").test("look", 5),
        r -> r.first(Kind.STOP, Why.DONE));
  }

  /** A likely cause that only a step with data risk puts right, and no way to save them. */
  private static Scene dataInTheWay() {
    return new Scene()
        .reports("dead")
        .irreplaceableData()
        .couldNot("back-up-data")
        .leader("unlisted", 0.7);
  }

  @Test
  void costIsNeverNamed_whereTheDataAreTheReason() {
    for (Scene scene : List.of(dataInTheWay(), dataInTheWay().consent("risk-data", false))) {
      Result result = scene.exit(10, true).result();
      assertThat(result.advice().primary().reasons())
          .extracting(Reason::why)
          .doesNotContain(Why.CHEAPEST, Why.NOTHING_LEFT);
      assertThat(result.advice().others())
          .allSatisfy(
              a -> assertThat(a.reasons()).extracting(Reason::why).doesNotContain(Why.CHEAPEST));
    }
    Result agreed =
        dataInTheWay().consent("risk-data", true).repair("reset", 5).exit(10, true).result();
    assertThat(agreed.first(Kind.REPAIR, "reset")).isTrue();
  }

  @Test
  void dataAreNotAskedFor_whereSomebodyElseMustLookAtTheDevice() {
    Result other =
        new Scene()
            .irreplaceableData()
            .couldNot("back-up-data")
            .leader("chip", 0.7)
            .leader("unlisted", 0.2)
            .result();
    assertThat(other.first(Kind.SEND_ON, Why.OTHER_HANDS)).isTrue();
    Result outside =
        new Scene()
            .irreplaceableData()
            .couldNot("back-up-data")
            .leader("cable", 0.7)
            .leader("unlisted", 0.2)
            .result();
    assertThat(outside.first(Kind.RETURN, Why.NOT_THE_DEVICE)).isTrue();
  }

  private void proof() {
    rule(
        "the step named to follow a repair follows it",
        new Scene().did("clean"),
        r -> r.first(Kind.FUNCTION_TEST, "power-test"));
    rule(
        "a function that a repair touched is proved",
        new Scene().reports("dead").did("scrub").test("look", 5),
        r -> r.first(Kind.FUNCTION_TEST, "power-test"));
    rule(
        "a function that counts closed is proved closed",
        repairedSpeaker().outcome("sound-test", "passed").bench(off("opened")),
        r -> r.first(Kind.FUNCTION_TEST, Why.COUNTS_CLOSED));
    rule(
        "a function that is likely lost in spite of a passed test is tested another way",
        new Scene().reports("dead").did("scrub").outcome("power-test", "passed").lost("dead", 0.7),
        r -> r.first(Kind.FUNCTION_TEST, "long-test"));
    rule(
        "a device whose function is proved is closed up",
        new Scene()
            .reports("dead")
            .bench(on("opened"))
            .did("clean")
            .outcome("power-test", "passed"),
        r -> r.first(Kind.CLOSE_UP, Why.PROVED));
    rule(
        "the job is done once the function is proved and the device closed",
        new Scene().reports("dead").did("clean").outcome("power-test", "passed").test("look", 5),
        r -> r.first(Kind.STOP, Why.DONE));
  }

  private static Scene cured() {
    return new Scene().reports("dead").did("clean").outcome("power-test", "passed");
  }

  private void lasting() {
    rule(
        "a function that likely comes back lost is not to be relied on",
        cured().comesBack("dead", 0.7).test("look", 5),
        r -> r.first(Kind.TEST, "look"));
    rule(
        "a function that may only be hidden is not to be relied on",
        cured().inspection("look", "lint", 5),
        r -> r.first(Kind.TEST, Why.MAY_BE_HIDDEN));
    rule(
        "what may only be hidden is looked for",
        cured().comesBack("dead", 0.7).inspection("look", "lint", 5),
        r -> r.first(Kind.TEST, Why.MAY_BE_HIDDEN));
    rule(
        "a device whose function will likely be lost again goes out with that word",
        cured().comesBack("dead", 0.7),
        r -> r.first(Kind.STOP, Why.MAY_COME_BACK));
    rule(
        "what is put right because it comes back says so",
        cured().comesBack("dead", 0.7).repair("scrub", 5).exit(50, false),
        r -> r.first(Kind.REPAIR, Why.MAY_COME_BACK));
    rule(
        "what was checked at intake is checked at the end",
        cured().check("camera", false, Fact.Checked.Result.WORKS),
        r -> r.first(Kind.FUNCTION_TEST, Why.CHECK_LIST));
    rule(
        "what worked at intake and is faulty now is looked at again",
        cured()
            .check("camera", false, Fact.Checked.Result.WORKS)
            .check("camera", true, Fact.Checked.Result.FAULTY),
        r -> r.first(Kind.READ_AGAIN, Why.BROKEN_HERE));
    rule(
        "what was touched last is suspect first",
        cured()
            .check("camera", false, Fact.Checked.Result.WORKS)
            .check("camera", true, Fact.Checked.Result.FAULTY),
        r ->
            r.advice().primary().reasons().stream()
                .anyMatch(x -> x.words().endsWith("what was touched last: Do clean")));
    rule(
        "what is proved is closed up before it is given up",
        cured().bench(on("opened")),
        r -> r.first(Kind.CLOSE_UP));
    rule(
        "what is not to be relied on is seen to before it is closed up",
        cured().bench(on("opened")).comesBack("dead", 0.7).test("look", 5),
        r -> r.first(Kind.TEST, "look"));
  }

  @Test
  void checkListIsDone_onceEachLineIsCheckedAgain() {
    Scene scene =
        cured()
            .check("camera", false, Fact.Checked.Result.WORKS)
            .check("wifi", false, Fact.Checked.Result.CANNOT_TEST)
            .check("touch", false, Fact.Checked.Result.FAULTY)
            .check("camera", true, Fact.Checked.Result.WORKS)
            .check("touch", true, Fact.Checked.Result.FAULTY);
    assertThat(scene.result().first(Kind.STOP, Why.DONE)).isTrue();
    assertThat(scene.check("camera", true, Fact.Checked.Result.FAULTY).result().first(Kind.STOP))
        .isFalse();
    assertThat(scene.check("camera", true, Fact.Checked.Result.WORKS).result().first(Kind.STOP))
        .isTrue();
  }

  @Test
  void adviceSaysWhatACureProves() {
    Result closing = cured().bench(on("opened")).result();
    assertThat(closing.advice().primary().reasons())
        .containsExactly(
            new Reason(
                Why.PROVED,
                "the function test passed after: Do clean; that it cured it is all that shows what"
                    + " was wrong"));
    Result dataOnly =
        cured().goal(Goal.DATA_ONLY).comesBack("dead", 0.7).did("back-up-data").result();
    assertThat(dataOnly.first(Kind.STOP, Why.DONE)).isTrue();
  }

  @Test
  void followerIsNeverRepaired_whileItsRootIsLikelyThere() {
    Scene scene =
        new Scene()
            .repair("swap-cable", 5)
            .rootFirst("swap-cable", "cable", "lint")
            .exit(50, false);
    assertThat(scene.result().first(Kind.RETURN)).isTrue();
    assertThat(scene.repair("clean", 10).result().first(Kind.REPAIR, "clean")).isTrue();
  }

  private void looking() {
    rule(
        "what was said or seen and does not fit is asked about again",
        new Scene().did("remove-battery").saysLiquid(false).present("swollen").test("look", 5),
        r -> r.first(Kind.READ_AGAIN, Why.CONFLICT) && r.advice().primary().step().isEmpty());
    rule(
        "what was tested and does not fit is tested again",
        new Scene().outcome("look", "positive").outcome("look", "negative").test("listen", 5),
        r -> r.first(Kind.READ_AGAIN, "look"));
    rule(
        "a reading on a limit that matters is taken again",
        new Scene().agreed("opening").reads("gate", 0.65).reread(1, "probe", 2).test("look", 1),
        r -> r.first(Kind.READ_AGAIN, Why.ON_LIMIT));
    rule(
        "a test that is worth more comes before reading again",
        new Scene().agreed("opening").reads("gate", 0.65).reread(1, "probe", 2).test("look", 5),
        r -> r.first(Kind.TEST, "look"));
    rule(
        "what has been told three times is left alone",
        looksThrice().impossible(1, 2, 3),
        r -> r.first(Kind.STOP, Why.CONFLICT));
    rule(
        "facts that no device can show, however often looked at, stop the work",
        looksThrice().impossible(1, 2, 3),
        r -> r.first(Kind.STOP, Why.CONFLICT));
  }

  private static Scene looksThrice() {
    return new Scene()
        .outcome("look", "positive")
        .outcome("look", "positive")
        .outcome("look", "positive");
  }

  private void settling() {
    rule(
        "an open test that is worth its cost can be done",
        new Scene().test("look", 1).test("listen", -1),
        r -> r.first(Kind.TEST, "look"));
    rule(
        "the customer can be asked for a test that is worth its cost",
        new Scene().test("probe", 5),
        r -> r.first(Kind.ASK, Why.CONSENT_TO_TEST));
    rule(
        "an open repair that costs less than ending the job can be done",
        new Scene().repair("clean", 10).exit(50, false),
        r -> r.first(Kind.REPAIR, "clean"));
    rule(
        "the customer can be asked for a repair",
        new Scene().agreed("opening").repair("solder", 10).exit(50, false),
        r -> r.first(Kind.ASK, Why.CONSENT_TO_REPAIR));
    rule(
        "the customer can be asked for a repair above the ceiling",
        new Scene().dearRepair("clean", 10).exit(50, false),
        r ->
            r.first(Kind.ASK, Why.CEILING)
                && r.advice().primary().consents().equals(Set.of(Conventions.ABOVE_CEILING)));
    rule(
        "a cause that an open repair puts right can be cured here",
        new Scene().agreed("opening", "board-work").leader("worn", 0.7).lacks("jig"),
        r -> r.first(Kind.RETURN));
    rule(
        "a cause whose repair is planned can be cured here",
        new Scene().leader("cable", 0.7).repair("swap-cable", 10).exit(50, false),
        r -> r.first(Kind.REPAIR, "swap-cable"));
    rule(
        "a cause that calls for other hands is sent on",
        new Scene().leader("chip", 0.7),
        r -> r.first(Kind.SEND_ON, Why.OTHER_HANDS));
    rule(
        "a cause whose repair is beyond this bench is sent on",
        new Scene().leader("blown", 0.7),
        r -> r.first(Kind.SEND_ON, Why.OTHER_HANDS));
    rule(
        "sending on can be the cheapest end",
        new Scene().exit(10, true),
        r -> r.first(Kind.SEND_ON, Why.CHEAPEST));
    rule(
        "a device that is not at fault is given back",
        new Scene().leader("cable", 0.7),
        r -> r.first(Kind.RETURN, Why.NOT_THE_DEVICE));
    rule(
        "where a price was asked for, the job ends with it",
        new Scene().goal(Goal.ESTIMATE),
        r -> r.first(Kind.STOP, Why.ESTIMATE));
    rule(
        "a device can always be given back as it is",
        new Scene(),
        r -> r.first(Kind.RETURN, Why.NOTHING_LEFT));
  }

  private static boolean isRootFirst(Result result) {
    return result.advice().primary().reasons().stream().anyMatch(r -> r.why() == Why.ROOT_FIRST);
  }

  private void ranking() {
    rule(
        "the root of a fault is put right before what follows it",
        new Scene()
            .repair("swap-cable", 5)
            .repair("clean", 10)
            .rootFirst("swap-cable", "cable", "lint")
            .exit(50, false),
        r -> r.first(Kind.REPAIR, "clean") && isRootFirst(r));
    rule(
        "danger comes before all else",
        new Scene().present("swollen").test("look", 5),
        r -> r.first(Kind.MAKE_SAFE, "remove-battery"));
    rule(
        "to make safe comes before stopping and asking",
        new Scene().present("swollen").present("wet-board"),
        r -> r.first(Kind.MAKE_SAFE, "remove-battery"));
    rule(
        "a danger that nothing here ends comes before one that the customer can agree to end",
        new Scene().present("wet-board").present("smell"),
        r -> r.first(Kind.STOP, Why.HELD));
    rule(
        "what is done is done",
        new Scene().reports("dead").did("clean").outcome("power-test", "passed").test("look", 5),
        r -> r.first(Kind.STOP, Why.DONE));
    rule(
        "data come before the device",
        new Scene().irreplaceableData().test("look", 5),
        r -> r.first(Kind.MAKE_SAFE, Why.DATA));
    rule(
        "a change is proved before anything else is tried",
        new Scene().reports("dead").did("scrub").test("look", 5),
        r -> r.first(Kind.FUNCTION_TEST, "power-test"));
    rule(
        "what is proved is closed up before anything else is tried",
        new Scene()
            .reports("dead")
            .bench(on("opened"))
            .did("clean")
            .outcome("power-test", "passed")
            .test("look", 5),
        r -> r.first(Kind.CLOSE_UP));
    rule(
        "facts that do not fit are looked at before they are built on",
        new Scene().outcome("look", "positive").outcome("look", "negative").test("listen", 5),
        r -> r.first(Kind.READ_AGAIN, "look"));
    rule(
        "nothing is built on facts that no device can show",
        looksThrice().impossible(1, 2, 3),
        r -> r.first(Kind.STOP, Why.CONFLICT));
    rule(
        "a test worth its cost comes before asking and before settling",
        new Scene().test("look", 1).test("probe", 5).repair("clean", 10).exit(50, false),
        r -> r.first(Kind.TEST, "look"));
    rule(
        "a test to be asked for comes before settling",
        new Scene().test("probe", 5).repair("clean", 10).exit(50, false),
        r -> r.first(Kind.ASK, "probe"));
    rule(
        "a price that was asked for comes before what it is for",
        new Scene().goal(Goal.ESTIMATE).leader("chip", 0.7).exit(5, true),
        r -> r.first(Kind.STOP, Why.ESTIMATE));
    rule(
        "what is not the device's fault is not repaired",
        new Scene().leader("cable", 0.7).repair("clean", 10).exit(50, false),
        r -> r.first(Kind.RETURN, Why.NOT_THE_DEVICE));
    rule(
        "what calls for other hands is not repaired here",
        new Scene().leader("chip", 0.7).repair("clean", 10).exit(50, false),
        r -> r.first(Kind.SEND_ON, Why.OTHER_HANDS));
    rule(
        "of two repairs the one that is expected to cost less comes first",
        new Scene().agreed("opening").repair("clean", 30).repair("solder", 10).exit(50, false),
        r -> r.first(Kind.ASK, "solder"));
    rule(
        "a repair cheaper than the end comes before the end",
        new Scene().repair("clean", 10).exit(50, true),
        r -> r.first(Kind.REPAIR, "clean"));
    rule(
        "a repair that spares the data comes before what would risk them, and before sending on for"
            + " their sake",
        dataInTheWay().repair("clean", 5).exit(10, true),
        r -> r.first(Kind.REPAIR, "clean"));
    rule(
        "the customer is asked about the data before the device leaves for them",
        dataInTheWay().exit(10, true),
        r -> r.first(Kind.ASK, Why.RISK_TO_DATA));
    rule(
        "where sending on is cheapest or for the data, the device is not given back as it is",
        new Scene().exit(10, true),
        r -> r.first(Kind.SEND_ON, Why.CHEAPEST));
    rule(
        "of two of one kind the weightier reason comes first, then the greater value, then the"
            + " pack's order",
        new Scene().test("look", 1).test("listen", 5),
        r -> r.first(Kind.TEST, "listen"));
  }
}
