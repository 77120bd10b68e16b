package org.faultwright.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.Intake;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.oracle.Facts;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.faultwright.rules.Advice;
import org.faultwright.rules.facts.Reread;
import org.junit.jupiter.api.Test;

/**
 * A reading on a limit is taken again where chance is what blurs it, and not for the meter's sake.
 */
class RereadingTest {

  /**
   * A supply must be at least 1.80 V. One of two parts is bad; each repair takes its time.
   *
   * @param meterMillivolts how far the meter may be off
   * @param listens minutes of another test that knows the answer nearly for certain; 0: none
   */
  private static Pack pack(int meterMillivolts, int listens) {
    String text =
        """
        pack: plover-player/supply
        version: 1.0.0
        format: 1
        title: Supply (invented)
        basis: invented
        instruments: {meter: {accuracy: {counts: %d, count: 0.001 V}}}
        complaints: {silent: {event: lost, rate: 30 %%}}
        causes:
          regulator-weak: {share: 50 %%, of: silent}
          speaker-torn: {share: 45 %%, of: silent}
          unlisted: {share: 5 %%, of: silent}
        events: {lost: {any: [regulator-weak, speaker-torn, unlisted]}}
        steps:
          plays: {minutes: 1, proves: {complaint: silent, catches: 99 %%, cries-wolf: 1 %%}}
          mend-regulator: {minutes: 30, changes: {regulator-weak: {cures: 98 %%}}, then-repeat: plays}
          mend-speaker: {minutes: 30, changes: {speaker-torn: {cures: 98 %%}}, then-repeat: plays}
        %s
          read-supply:
            minutes: 0.5
            instrument: meter
            points:
              supply: {reference: {low: 1.80 V}, low: {regulator-weak: 98 %%}}
        """
            .formatted(
                meterMillivolts,
                listens == 0
                    ? ""
                    : "  listen: {minutes: %d, shows: {cause: regulator-weak, catches: 99 %%, cries-wolf: 1 %%}}"
                        .formatted(listens));
    PackReading read = new PackReader().read(YamlText.of("pack.yaml", text));
    assertThat(read).as(read.report()).isInstanceOf(PackReading.Readable.class);
    return ((PackReading.Readable) read).pack();
  }

  private static Fact reads(double volts, double uncertainty) {
    return new Fact.ReadingTaken(
        new PointId("supply"),
        new ReadingValue.Measured(new Quantity(volts, Dimension.VOLTAGE)),
        OptionalDouble.of(uncertainty),
        Fact.Setup.AS_STATED);
  }

  private static Diagnosis told(Pack pack, double uncertainty) {
    Diagnosis diagnosis = Engine.create().open(pack, Intake.PLAIN);
    diagnosis.tell(Facts.reported("silent"));
    diagnosis.tell(reads(1.80, uncertainty));
    return diagnosis;
  }

  private static double worth(Diagnosis diagnosis) {
    List<Reread> worths = diagnosis.rereads();
    assertThat(worths).hasSize(1);
    return worths.get(0).worth();
  }

  @Test
  void readingAgain_isAdvised_whereChanceBlursTheReading() {
    try (Diagnosis diagnosis = told(pack(1, 0), 0.02)) {
      Answer answer = diagnosis.answer();
      assertThat(answer.readings().get(0).readingAgainHelps()).isTrue();
      assertThat(answer.advice().primary().kind()).isEqualTo(Advice.Kind.READ_AGAIN);
      assertThat(worth(diagnosis)).isPositive();
    }
  }

  /** As uncertain as above in all; but all of it is the meter's own, the same each time. */
  @Test
  void readingAgain_isNotAdvised_whereTheMeterItselfMayBeOff() {
    try (Diagnosis diagnosis = told(pack(35, 0), 0.001)) {
      Answer answer = diagnosis.answer();
      assertThat(answer.readings().get(0).conformance().nearLimit()).isTrue();
      assertThat(answer.readings().get(0).readingAgainHelps()).isFalse();
      assertThat(answer.advice().primary().kind()).isNotEqualTo(Advice.Kind.READ_AGAIN);
      assertThat(worth(diagnosis)).isCloseTo(-0.5, within(1e-12)); // the time alone
    }
  }

  @Test
  void anotherTest_comesFirst_whereItIsWorthMore() {
    try (Diagnosis diagnosis = told(pack(1, 1), 0.02)) {
      Answer answer = diagnosis.answer();
      assertThat(worth(diagnosis)).isPositive();
      assertThat(answer.advice().primary().kind()).isEqualTo(Advice.Kind.TEST);
      assertThat(answer.advice().primary().step()).contains(new StepId("listen"));
    }
    try (Diagnosis diagnosis = told(pack(1, 25), 0.02)) {
      assertThat(diagnosis.answer().advice().primary().kind()).isEqualTo(Advice.Kind.READ_AGAIN);
    }
  }

  /** The same by brute force: 41 readings, each told and answered. */
  @Test
  void worth_isThatOfAFineSum() {
    for (int meter : new int[] {1, 30}) {
      double random = 0.02;
      try (Diagnosis diagnosis = told(pack(meter, 0), random)) {
        double now = diagnosis.answer().expectedCost().orElseThrow();
        double logNow = logP(diagnosis.answer());
        double spread = random * Math.sqrt(2);
        double sum = 0;
        double p = 0;
        for (int i = -20; i <= 20; i++) {
          double z = i / 5.0;
          Answer then = diagnosis.suppose(List.of(reads(1.80 + z * spread, random)));
          double weight = Math.exp(-z * z / 2 + logP(then) - logNow);
          sum += weight * (now - then.expectedCost().orElseThrow());
          p += weight;
        }
        // the cost of what is best to do has a bend, which four points blur
        assertThat(worth(diagnosis)).isCloseTo(sum / p - 0.5, within(0.15 * sum / p));
      }
    }
  }

  private static double logP(Answer answer) {
    return answer.posterior().orElseThrow().logPEvidence();
  }

  @Test
  void meansOfReadings_shrinkToTheMetersOwnError() {
    try (Diagnosis diagnosis = told(pack(30, 0), 0.02)) {
      var judged = diagnosis.answer().readings().get(0);
      assertThat(judged.uncertainty().systematic()).isCloseTo(0.03 / Math.sqrt(3), within(1e-12));
      assertThat(judged.uOfMean(1)).isEqualTo(judged.uncertainty().combined());
      assertThat(judged.uOfMean(1_000_000))
          .isCloseTo(judged.uncertainty().systematic(), within(1e-7));
      assertThat(Optional.of(judged.readingAgainHelps())).contains(true);
    }
  }
}
