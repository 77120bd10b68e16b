package org.faultwright.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BenchState;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.ComplaintId;
import org.faultwright.pack.ConsentId;
import org.faultwright.pack.HistoryId;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.OutcomeId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PackId;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.SwitchId;
import org.faultwright.pack.SymptomId;
import org.faultwright.pack.SymptomValue;
import org.faultwright.pack.reader.Fragments;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

class CaseReaderTest {

  private static final Path FOLDER = Path.of("src/test/resources/reading");

  private static final Pack PACK = pack();

  private static Pack pack() {
    Fragments fragments =
        Fragments.of(Map.of("bench-basics", YamlText.read(FOLDER.resolve("bench-basics.yaml"))));
    PackReading reading = new PackReader(fragments).read(FOLDER.resolve("full.yaml"));
    return ((PackReading.Readable) reading).pack();
  }

  private static CaseFile full() {
    CaseReading reading = new CaseReader(PACK).read(YamlText.read(FOLDER.resolve("case.yaml")));
    assertThat(reading.report()).isEmpty();
    return ((CaseReading.Readable) reading).caseFile();
  }

  private static String report(String text) {
    return new CaseReader(PACK).read(YamlText.of("case.yaml", text)).report();
  }

  private static String withFact(String fact) {
    return report("case: x\nformat: 1\npack: plover-player/sound\nfacts:\n  - " + fact + "\n");
  }

  private static Fact reading(String point, ReadingValue value) {
    return new Fact.ReadingTaken(
        new PointId(point), value, OptionalDouble.empty(), Fact.Setup.AS_STATED);
  }

  @Test
  void facts_areReadInOrder() {
    StepId look = new StepId("look");
    assertThat(full().facts())
        .extracting(Told::fact)
        .containsExactly(
            new Fact.Complained(new ComplaintId("no-sound"), true),
            new Fact.Complained(new ComplaintId("crackles"), false),
            new Fact.HistorySaid(new HistoryId("liquid"), false),
            new Fact.HistorySeen(new HistoryId("liquid"), true),
            new Fact.SymptomNoted(new SymptomId("stain"), SymptomValue.NOT_SEEN),
            new Fact.OutcomeSeen(new StepId("bend-check"), new OutcomeId("changes")),
            new Fact.OutcomeSeen(new StepId("listen"), new OutcomeId("scratch")),
            new Fact.CouldNotDo(look, "no light"),
            new Fact.ReadingTaken(
                new PointId("left"),
                new ReadingValue.Measured(new Quantity(0.452, Dimension.VOLTAGE)),
                OptionalDouble.of(0.005),
                new Fact.Setup(
                    Optional.of("red-on-ground"), Optional.of(new InstrumentId("meter-diode")))),
            new Fact.ReadingTaken(
                new PointId("guard"),
                new ReadingValue.OverRange(Dimension.VOLTAGE),
                OptionalDouble.empty(),
                Fact.Setup.AS_STATED),
            reading("left", new ReadingValue.Named("unsteady", Dimension.VOLTAGE)),
            new Fact.ReadingTaken(
                new PointId("left"),
                new ReadingValue.Measured(new Quantity(0.618, Dimension.VOLTAGE)),
                OptionalDouble.empty(),
                new Fact.Setup(Optional.empty(), Optional.empty(), true, OptionalDouble.of(25))),
            reading("left", new ReadingValue.Measured(new Quantity(0.452, Dimension.VOLTAGE))),
            reading("right", new ReadingValue.Measured(new Quantity(0.610, Dimension.VOLTAGE))),
            new Fact.StepDone(
                new StepId("try-flex"),
                Optional.of(new Fact.PartUsed(Optional.of("pulled"), Optional.of("b7")))),
            new Fact.BenchSet(new BenchState(new SwitchId("cell-in"), false)),
            new Fact.ConsentAnswered(new ConsentId("board-work"), false),
            new Fact.Checked("camera", false, Fact.Checked.Result.CANNOT_TEST),
            new Fact.Checked("touch", true, Fact.Checked.Result.WORKS),
            new Fact.Noted("words"));
    assertThat(full().facts()).extracting(t -> t.id().number()).startsWith(1, 2, 3);
    assertThat(full().facts().get(4).label()).contains("stain-look");
  }

  @Test
  void intakeAndExpectation_areRead() {
    CaseFile c = full();
    assertThat(c.pack()).isEqualTo(PackId.parse("plover-player/sound"));
    assertThat(c.packVersion()).contains("1.2.0");
    assertThat(c.intake().skill()).isEqualTo(Step.Skill.BENCH);
    assertThat(c.intake().deviceValue()).hasValue(260.5);
    assertThat(c.intake().dataValue()).hasValue(80);
    assertThat(c.intake().irreplaceableData()).isTrue();
    Expectation e = c.expectation().orElseThrow();
    assertThat(e.leads()).contains(new CauseId("corroded"));
    assertThat(e.atLeast()).containsEntry(new CauseId("corroded"), 0.6);
    assertThat(e.advice()).contains("repair reseat-flex");
    assertThat(e.blocked()).isEqualTo(List.of("find-short"));
    assertThat(e.decisive()).contains("stain-look");
  }

  @Test
  void packNamed_isSeenBeforeReading() {
    assertThat(CaseReader.packNamedIn(YamlText.read(FOLDER.resolve("case.yaml"))))
        .contains(PackId.parse("plover-player/sound"));
    assertThat(CaseReader.packNamedIn(YamlText.of("c", "case: x"))).isEmpty();
  }

  @Test
  void wrongUnit_saysWhatWasExpected() {
    assertThat(withFact("{reading: left, value: 452 mA}"))
        .isEqualTo(
            """
            case.yaml:5:28: error[wrong-unit]: 'value' of fact 1 must be a voltage, in V, and here is a current: 452 mA
                5 |   - {reading: left, value: 452 mA}
                  |                            ^^^^^^
               write it as in 0.452 V
            1 error
            """);
  }

  @Test
  void absurdValue_isAProblem() {
    assertThat(withFact("{reading: left, value: 9000 MV}")).contains("error[bad-quantity]");
  }

  @Test
  void wrongOutcome_listsTheRightOnes() {
    assertThat(withFact("{outcome: listen, is: loud}"))
        .contains("error[unknown-outcome]: step 'listen' has no outcome 'loud'")
        .contains("its outcomes are: nothing-heard, scratch, clear");
    assertThat(withFact("{outcome: plug-table, is: positive}"))
        .contains("step 'plug-table' has no outcomes")
        .contains("it takes readings: write {reading: ..., value: ...}, with a point of left");
    assertThat(withFact("{outcome: reseat-flex, is: positive}")).contains("{did: reseat-flex}");
  }

  @Test
  void unknownId_isSuggested() {
    assertThat(withFact("{symptom: stian, is: present}"))
        .contains("error[unknown-symptom]: fact 1 points at symptom 'stian'")
        .contains("did you mean 'stain'?");
  }

  @Test
  void renamedId_isTakenAndSaid() {
    String text = "case: x\nformat: 1\npack: plover-player/sound\nexpect:\n  leads: coil-cut\n";
    CaseReading reading = new CaseReader(PACK).read(YamlText.of("case.yaml", text));
    assertThat(reading).isInstanceOf(CaseReading.Readable.class);
    assertThat(reading.report()).contains("warning[renamed-id]").contains("'coil-open'");
  }

  @Test
  void otherPack_isTheOnlyProblem() {
    assertThat(
            report(
                "case: x\n"
                    + "format: 1\n"
                    + "pack: wren-handset/charging\n"
                    + "facts: [{symptom: lint, is: present}]"))
        .contains("error[other-pack]")
        .endsWith("1 error\n");
  }

  @Test
  void otherVersion_isAnErrorWhenTheFirstNumberDiffers() {
    assertThat(report("case: x\nformat: 1\npack: plover-player/sound@1.0.0"))
        .contains("warning[other-pack-version]");
    assertThat(report("case: x\nformat: 1\npack: plover-player/sound@2.0.0"))
        .contains("error[other-pack-version]");
  }

  @Test
  void decisiveLabel_mustBeThere() {
    assertThat(report("case: x\nformat: 1\npack: plover-player/sound\nexpect: {decisive: loupe}"))
        .contains("error[unknown-label]: no fact is labelled 'loupe'");
  }
}
