package org.faultwright.packs;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.diagnosis.Answer;
import org.faultwright.diagnosis.Diagnosis;
import org.faultwright.diagnosis.Engine;
import org.faultwright.diagnosis.Posterior;
import org.faultwright.measurement.Dimension;
import org.faultwright.pack.ActivityId;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.CautionId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.ToolId;
import org.faultwright.rules.Advice;
import org.faultwright.rules.StepStatus;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What every bench knows, held against the packs. Each fact: common practice, no source. */
class CommonPracticeReference {

  private static final Engine ENGINE = Engine.create();
  private static final SwitchId OPEN = new SwitchId("device-open");
  private static final BenchState BATTERY_OFF =
      new BenchState(new SwitchId("battery-connected"), false);

  /** A first suspect "by far" has at least three times the chance of the next. */
  private static final double BY_FAR = 3;

  static List<PackFolder> folders() {
    return PackFolder.all();
  }

  static Stream<Arguments> complaints() {
    List<Arguments> all = new ArrayList<>();
    for (PackFolder folder : PackFolder.all()) {
      Pack pack = folder.pack();
      pack.complaints().keySet().forEach(c -> all.add(Arguments.of(pack.id().toString(), pack, c)));
    }
    return all.stream();
  }

  /** Common practice, no source. */
  @Test
  void flexBesideItsPlug_isTheFirstSuspectByFar_whenASensorOnAFlexFails() {
    Pack pack = pack("siskin-handset", "power-key");
    Answer answer = answer(pack, Intake.PLAIN, complaint("fingerprint-fails"));
    List<Posterior.Ranked> ranking = answer.posterior().orElseThrow().ranking();
    assertThat(ranking.get(0).cause()).isEqualTo(new CauseId("flex-broken-at-plug"));
    assertThat(ranking.get(0).p()).isGreaterThan(BY_FAR * ranking.get(1).p());
  }

  /** Common practice, no source. */
  @Test
  void flexBesideItsPlug_isTheFirstSuspectByFar_whenKeyAndSensorFailTogether() {
    Pack pack = pack("siskin-handset", "power-key");
    Answer answer =
        answer(pack, Intake.PLAIN, complaint("fingerprint-fails"), complaint("key-dead"));
    List<Posterior.Ranked> ranking = answer.posterior().orElseThrow().ranking();
    assertThat(ranking.get(0).cause()).isEqualTo(new CauseId("flex-broken-at-plug"));
    assertThat(ranking.get(0).p()).isGreaterThan(BY_FAR * ranking.get(1).p());
  }

  /** Common practice, no source. */
  @ParameterizedTest
  @MethodSource("folders")
  void diodeValues_areTakenRedOnGroundWithTheBatteryDisconnected(PackFolder folder) {
    InstrumentId diode = new InstrumentId("multimeter-diode");
    List<Step> readings =
        steps(folder)
            .filter(s -> s.pinTable().flatMap(Step.PinTable::instrument).equals(Optional.of(diode)))
            .toList();
    assertThat(readings).isNotEmpty();
    for (Step step : readings) {
      assertThat(step.pinTable().orElseThrow().leads()).as(step.title()).hasValue("red-on-ground");
      assertThat(step.conditions().bench()).as(step.title()).contains(BATTERY_OFF);
    }
  }

  /** The cheap look from outside comes first: common practice, no source. */
  @ParameterizedTest(name = "{0}: {2}")
  @MethodSource("complaints")
  void firstStep_leavesTheDeviceClosed_whenOnlyTheComplaintIsKnown(
      String name, Pack pack, ComplaintId complaint) {
    leavesClosed(answer(pack, Intake.PLAIN, new Fact.Complained(complaint, true)));
  }

  /** Also where it may be opened: common practice, no source. */
  @ParameterizedTest
  @ValueSource(strings = {"no-power", "restarts"})
  void firstStep_leavesTheHandsetClosed_whenItMayBeOpened(String complaint) {
    Pack pack = pack("wren-handset", "power");
    leavesClosed(answer(pack, agreedTo("opening", "board-work"), complaint(complaint)));
  }

  private static void leavesClosed(Answer answer) {
    Advice first = answer.advice().primary();
    assertThat(first.step()).isPresent();
    assertThat(first.turns()).noneMatch(t -> t.of().equals(OPEN) && t.on());
  }

  /** No board work without a reading that asks for it: common practice, no source. */
  @ParameterizedTest(name = "{0}: {2}")
  @MethodSource("complaints")
  void boardWork_isNotOpen_whenOnlyTheComplaintIsKnown(
      String name, Pack pack, ComplaintId complaint) {
    Answer answer =
        answer(pack, agreedTo("opening", "board-work"), new Fact.Complained(complaint, true));
    List<StepId> open =
        answer.findings().steps().values().stream()
            .filter(StepStatus::isOpen)
            .map(StepStatus::step)
            .filter(s -> isBoardWork(pack.steps().get(s)))
            .toList();
    assertThat(open).isEmpty();
  }

  /** Liquid: no power until cleaned and checked. Common practice, no source. */
  @Test
  void nothing_isPowered_whenItGotWetAndIsNotYetCleanedAndChecked() {
    Pack pack = pack("wren-handset", "power");
    Answer answer =
        answer(
            pack,
            agreedTo("opening", "board-work"),
            complaint("no-power"),
            new Fact.SymptomNoted(new SymptomId("fresh-liquid"), SymptomValue.PRESENT));
    for (Step step : pack.steps().values()) {
      boolean powers =
          step.conditions().bench().stream()
              .anyMatch(
                  b ->
                      b.on()
                          && pack.switches().get(b.of()).whileOn().stream()
                              .anyMatch(POWER::contains));
      if (powers) {
        assertThat(answer.findings().steps().get(step.id()).isOpen()).as(step.title()).isFalse();
      }
    }
    assertThat(answer.advice().primary().kind()).isEqualTo(Advice.Kind.MAKE_SAFE);
  }

  private static final Set<ActivityId> POWER =
      Set.of(new ActivityId("powering"), new ActivityId("charging"));

  /** A shorted rail is fed with both limits set, volts and amperes: common practice, no source. */
  @Test
  void injection_hasALimitOfVoltageAndOneOfCurrent() {
    List<Step> injections =
        folders().stream()
            .flatMap(CommonPracticeReference::steps)
            .filter(s -> s.does().contains(new ActivityId("inject")))
            .toList();
    assertThat(injections).hasSizeGreaterThan(1);
    for (Step step : injections) {
      assertThat(step.limits().stream().map(l -> l.most().dimension()))
          .as(step.title())
          .contains(Dimension.VOLTAGE, Dimension.CURRENT);
      assertThat(step.limits()).as(step.title()).anyMatch(l -> l.rail().isPresent());
    }
  }

  /** What can hurt at each tool: common practice, no source. */
  @ParameterizedTest
  @MethodSource("folders")
  void tools_comeWithTheirCautions(PackFolder folder) {
    for (Step step : steps(folder).toList()) {
      beside(step, "oscilloscope", "scope-earth");
      beside(step, "soldering-station", "burns", "fumes", "eye-protection");
      beside(step, "hot-air-station", "burns", "fumes", "eye-protection");
      beside(step, "bench-supply", "bench-supply-limits", "hot-surfaces");
    }
  }

  private static void beside(Step step, String tool, String... cautions) {
    if (step.conditions().tools().contains(new ToolId(tool))) {
      assertThat(step.cautions())
          .as(step.title())
          .contains(Stream.of(cautions).map(CautionId::new).toArray(CautionId[]::new));
    }
  }

  /** What may lose data says so, and is asked for: common practice, no source. */
  @ParameterizedTest
  @MethodSource("folders")
  void workOnTheMainBoard_isAgreedToAndCountsAsARiskToTheData(PackFolder folder) {
    ConsentId boardWork = new ConsentId("board-work");
    for (Step step :
        steps(folder).filter(s -> s.conditions().consent().contains(boardWork)).toList()) {
      if (step.does().contains(new ActivityId("heat-near-battery"))) {
        assertThat(step.dataRisk()).as(step.title()).isTrue();
        assertThat(step.cautions()).as(step.title()).contains(new CautionId("data-loss"));
      }
    }
  }

  private static boolean isBoardWork(Step step) {
    return step.does().contains(new ActivityId("solder"))
            && step.conditions().consent().contains(new ConsentId("board-work"))
        || step.does().contains(new ActivityId("inject"));
  }

  private static Stream<Step> steps(PackFolder folder) {
    return folder.pack().steps().values().stream();
  }

  private static Fact complaint(String id) {
    return new Fact.Complained(new ComplaintId(id), true);
  }

  private static Intake agreedTo(String... consents) {
    Intake plain = Intake.PLAIN;
    return new Intake(
        plain.board(),
        plain.goal(),
        Set.copyOf(Stream.of(consents).map(ConsentId::new).toList()),
        plain.refused(),
        plain.ceiling(),
        plain.deviceValue(),
        plain.irreplaceableData(),
        plain.lacking(),
        plain.skill());
  }

  private static Answer answer(Pack pack, Intake intake, Fact... facts) {
    try (Diagnosis diagnosis = ENGINE.open(pack, intake)) {
      for (Fact fact : facts) {
        diagnosis.tell(fact);
      }
      return diagnosis.answer();
    }
  }

  private static Pack pack(String family, String subsystem) {
    return folders().stream()
        .filter(f -> f.path().endsWith(family + "/" + subsystem))
        .findFirst()
        .orElseThrow()
        .pack();
  }
}
