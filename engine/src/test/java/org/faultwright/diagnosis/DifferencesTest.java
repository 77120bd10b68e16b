package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.BoardId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

/**
 * How far readings lie from those that they are compared with: of the other line of a pair, and of
 * the same point on a known-good board.
 */
class DifferencesTest {

  private static final StepId TABLE = new StepId("port-table");

  /** Two lines of one pair, and one that is compared with nothing. The meter may be 20 mV off. */
  private static final String TEXT =
      """
      pack: dunnock-player/port
      version: 1.0.0
      format: 1
      title: Port (invented)
      basis: invented
      boards: [rev-a, rev-b]
      instruments:
        meter: {accuracy: {counts: 20, count: 0.001 V}}
        other-meter: {accuracy: {counts: 20, count: 0.001 V}}
      complaints: {no-data: {event: no-link}}
      causes:
        esd-leaky: {prior: 2 %}
        line-open: {prior: 3 %}
        unlisted: {prior: 1 %}
      events: {no-link: {any: [esd-leaky, line-open, unlisted]}}
      steps:
        port-table:
          minutes: 2
          instrument: meter
          points:
            dp: {reference: 0.450 V, tolerance: 8 %, open: [line-open]}
            dm: {reference: 0.460 V, tolerance: 8 %, open: [line-open]}
            id: {reference: 0.500 V, tolerance: 8 %}
        compare-lines:
          minutes: 1
          compare: {point: dp, with: dm, differs-by: 3 %, points-to: [esd-leaky]}
        replace-protection:
          minutes: 20
          only-if: {outcome: compare-lines, is: differs}
          changes: {esd-leaky: {cures: 95 %}}
          then-repeat: link-test
        mend-line:
          minutes: 20
          changes: {line-open: {cures: 95 %}}
          then-repeat: link-test
        link-test:
          minutes: 1
          proves: {complaint: no-data, catches: 97 %, cries-wolf: 1 %}
      """;

  private static final Engine ENGINE = Engine.create();
  private static final Pack PACK = pack();

  private static Pack pack() {
    PackReading read = new PackReader().read(YamlText.of("pack.yaml", TEXT));
    assertThat(read).as(read.report()).isInstanceOf(PackReading.Readable.class);
    return ((PackReading.Readable) read).pack();
  }

  private static final Fact.Setup KNOWN_GOOD =
      new Fact.Setup(Optional.empty(), Optional.empty(), true, OptionalDouble.empty());

  private static Fact reads(String point, double volts, Fact.Setup setup) {
    return new Fact.ReadingTaken(
        new PointId(point),
        new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE)),
        OptionalDouble.of(0.0004),
        setup);
  }

  private static Fact reads(String point, double volts) {
    return reads(point, volts, Fact.Setup.AS_STATED);
  }

  private static PinReport report(List<Fact> facts) {
    return report(facts, Intake.PLAIN);
  }

  private static PinReport report(List<Fact> facts, Intake intake) {
    try (Diagnosis diagnosis = ENGINE.open(PACK, intake)) {
      facts.forEach(diagnosis::tell);
      return diagnosis.pins(TABLE);
    }
  }

  private static boolean isOpen(String step, Fact... facts) {
    try (Diagnosis diagnosis = ENGINE.open(PACK, Intake.PLAIN)) {
      for (Fact fact : facts) {
        diagnosis.tell(fact);
      }
      return diagnosis.answer().findings().isOpen(new StepId(step));
    }
  }

  @Test
  void pair_isComparedOnce_beyondWhatTheReferencesDifferBy() {
    PinReport report = report(List.of(reads("dp", 0.430), reads("dm", 0.461)));
    assertThat(report.differences()).hasSize(1);
    PinReport.Difference d = report.differences().get(0);
    assertThat(d.line().number()).isEqualTo(1);
    assertThat(d.with().number()).isEqualTo(2);
    assertThat(d.other().id()).isEqualTo(new PointId("dm"));
    assertThat(d.onKnownGood()).isFalse();
    // 430 - 461 - (450 - 460) = -21 mV
    assertThat(d.difference()).isCloseTo(-0.021, within(1e-12));
    // the 20 mV of the meter are in both; what is left is 0.4 mV of each
    assertThat(d.uncertainty()).isCloseTo(0.0004 * Math.sqrt(2), within(1e-12));
    assertThat(d.verdict().orElseThrow().apart()).isTrue();
    assertThat(d.verdict().get().mayDiffer()).isCloseTo(0.0135, within(1e-12));
    assertThat(d.verdict().get().pointsTo())
        .extracting(s -> s.node().toString())
        .containsExactly("esd-leaky");
    assertThat(report.lines()).noneMatch(PinReport.Line::isOdd);
    assertThat(report.isOdd()).isTrue();
  }

  @Test
  void pairThatIsOffAlike_readsAlike() {
    PinReport report = report(List.of(reads("dp", 0.430), reads("dm", 0.441)));
    PinReport.Verdict verdict = report.differences().get(0).verdict().orElseThrow();
    assertThat(verdict.apart()).isFalse();
    assertThat(verdict.pointsTo()).isEmpty();
  }

  @Test
  void pairOfWhichOneIsOffByItself_hasNoVerdict() {
    PinReport report = report(List.of(reads("dp", 0.450), reads("dm", 1.900)));
    assertThat(report.differences()).hasSize(1);
    assertThat(report.differences().get(0).verdict()).isEmpty();
    assertThat(report.lines().get(1).isOdd()).isTrue();
  }

  @Test
  void whatCannotBeCompared_isNot() {
    Fact.Setup elsewise =
        new Fact.Setup(
            Optional.empty(),
            Optional.of(new org.faultwright.pack.InstrumentId("other-meter")),
            false,
            OptionalDouble.empty());
    Fact over =
        new Fact.ReadingTaken(
            new PointId("dm"),
            new ReadingValue.OverRange(Dimension.VOLTAGE),
            OptionalDouble.empty(),
            Fact.Setup.AS_STATED);
    assertThat(report(List.of(reads("dp", 0.45), reads("id", 0.5))).differences()).isEmpty();
    assertThat(report(List.of(reads("dp", 0.45), over)).differences()).isEmpty();
    assertThat(report(List.of(reads("dp", 0.45), reads("dm", 0.46, elsewise))).differences())
        .isEmpty();
  }

  @Test
  void pointIsComparedWithTheSameOnAKnownGoodBoard_unlessThatIsAnother() {
    List<Fact> facts = List.of(reads("id", 0.51, KNOWN_GOOD), reads("id", 0.48));
    PinReport.Difference d = report(facts).differences().get(0);
    assertThat(d.onKnownGood()).isTrue();
    assertThat(d.line().number()).isEqualTo(2);
    assertThat(d.difference()).isCloseTo(-0.03, within(1e-12));
    assertThat(d.verdict()).isEmpty();
    Fact.Setup ofAnother =
        new Fact.Setup(
            Optional.empty(),
            Optional.empty(),
            true,
            OptionalDouble.empty(),
            Optional.of(new BoardId("rev-b")));
    assertThat(
            report(
                    List.of(reads("id", 0.51, ofAnother), reads("id", 0.48)),
                    Intake.PLAIN.withBoard(new BoardId("rev-a")))
                .differences())
        .isEmpty();
  }

  @Test
  void ofSeveralReadings_eachIsComparedWithTheLastOfTheOther() {
    PinReport report =
        report(
            List.of(reads("dm", 0.470), reads("dp", 0.449), reads("dp", 0.451), reads("dm", 0.46)));
    assertThat(report.differences()).extracting(d -> d.line().number()).containsExactly(2, 3);
    assertThat(report.differences()).allMatch(d -> d.with().number() == 4);
  }

  /** The same table on a known-good board, with the same meter: it lies nowhere. */
  @Property(tries = 40)
  void sameTableTwice_differsNowhere(
      @ForAll @Size(3) List<@DoubleRange(min = 0.1, max = 0.9) Double> volts) {
    List<Fact> facts = new ArrayList<>();
    String[] points = {"dp", "dm", "id"};
    for (int i = 0; i < 3; i++) {
      facts.add(reads(points[i], volts.get(i), KNOWN_GOOD));
      facts.add(reads(points[i], volts.get(i)));
    }
    List<PinReport.Difference> onKnownGood =
        report(facts).differences().stream().filter(PinReport.Difference::onKnownGood).toList();
    assertThat(onKnownGood).hasSize(3).allMatch(d -> d.difference() == 0);
  }

  /** What shifts both readings alike changes no difference; telling them turned about neither. */
  @Property(tries = 40)
  void difference_dependsOnWhatIsNotShared(
      @ForAll @IntRange(min = 420, max = 480) int dp,
      @ForAll @IntRange(min = 430, max = 490) int dm,
      @ForAll @IntRange(min = -15, max = 15) int shift) {
    PinReport.Difference one =
        report(List.of(reads("dp", dp / 1e3), reads("dm", dm / 1e3))).differences().get(0);
    PinReport.Difference other =
        report(List.of(reads("dm", (dm + shift) / 1e3), reads("dp", (dp + shift) / 1e3)))
            .differences()
            .get(0);
    assertThat(other.difference()).isCloseTo(one.difference(), within(1e-12));
    assertThat(other.uncertainty()).isCloseTo(one.uncertainty(), within(1e-12));
    assertThat(other.other().id()).isEqualTo(one.other().id());
  }

  /** The numbers say it, to conditions too. */
  @Test
  void conditionOnTheOutcome_isMetByReadingsOfBoth() {
    Fact complaint = new Fact.Complained(new org.faultwright.pack.ComplaintId("no-data"), true);
    assertThat(isOpen("replace-protection", complaint)).isFalse();
    assertThat(isOpen("replace-protection", complaint, reads("dp", 0.43))).isFalse();
    assertThat(isOpen("replace-protection", complaint, reads("dp", 0.43), reads("dm", 0.461)))
        .isTrue();
    assertThat(isOpen("replace-protection", complaint, reads("dp", 0.43), reads("dm", 0.441)))
        .isFalse();
    // the later reading counts, and a look beside the numbers says nothing
    assertThat(
            isOpen(
                "replace-protection",
                complaint,
                reads("dp", 0.43),
                reads("dm", 0.461),
                reads("dm", 0.4615),
                new Fact.OutcomeSeen(
                    new StepId("compare-lines"), org.faultwright.pack.Comparison.ALIKE)))
        .isTrue();
    assertThat(isOpen("replace-protection", complaint, reads("dp", 0.43), reads("dm", 1.9)))
        .isFalse();
  }
}
