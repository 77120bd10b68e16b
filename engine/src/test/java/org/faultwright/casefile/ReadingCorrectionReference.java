package org.faultwright.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.InstrumentId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;
import org.faultwright.pack.StepId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

/** What is corrected in the readings of a case, against laws and standards. */
class ReadingCorrectionReference {

  private static final String TEXT =
      """
      pack: dunlin-player/corrections
      version: 1.0.0
      format: 1
      title: Dunlin player, corrections (invented)
      basis: invented
      instruments:
        meter-volts:
          accuracy: {of-reading: 0.5 %, counts: 2, count: 0.01 V}
          input-resistance: 10 Mohm
        meter-ohms: {accuracy: {of-reading: 1 %, counts: 2, count: 0.001 ohm}, lead-resistance: 0.2 ohm}
        meter-diode: {accuracy: {of-reading: 1 %, counts: 3, count: 0.001 V}, reads: diode-drop}
        meter-diode-weak:
          accuracy: {of-reading: 1 %, counts: 3, count: 0.001 V}
          reads: diode-drop
          test-current: 0.1 mA
      complaints: {silent: {event: lost}}
      causes: {fault: {share: 90 %, of: silent, send-on: yes}, unlisted: {share: 10 %, of: silent}}
      events: {lost: {any: [fault, unlisted]}}
      steps:
        plays: {minutes: 1, proves: {complaint: silent, catches: 99 %, cries-wolf: 1 %}}
        voltages:
          minutes: 1
          instrument: meter-volts
          points:
            rail: {reference: 5 V, tolerance: 5 %, low: [fault]}
            divider: {reference: 2.5 V, tolerance: 5 %, low: [fault], source-resistance: 500 kohm}
            cc: {reference: {low: 0.70 V, high: 1.16 V}, low: [fault], source-resistance: 4140.22 ohm}
        wires:
          minutes: 1
          instrument: meter-ohms
          points:
            jumper: {reference: 0.549 ohm, tolerance: 10 %, open: [fault]}
        drops:
          minutes: 1
          instrument: meter-diode
          points:
            warm: {reference: 0.60 V, tolerance: 5 %, open: [fault], taken-at: {temperature: 26.85 °C}}
            driven: {reference: 0.60 V, tolerance: 5 %, open: [fault],
              taken-at: {temperature: 26.85 °C, test-current: 1 mA}}
      """;

  private static final Pack PACK = pack();

  private static Pack pack() {
    PackReading reading = new PackReader().read(YamlText.of("pack.yaml", TEXT));
    assertThat(reading).as(reading.report()).isInstanceOf(PackReading.Readable.class);
    return ((PackReading.Readable) reading).pack();
  }

  private static Step step(String step) {
    return PACK.steps().get(new StepId(step));
  }

  private static Point point(String step, String point) {
    return step(step).pinTable().orElseThrow().points().stream()
        .filter(p -> p.id().equals(new PointId(point)))
        .findFirst()
        .orElseThrow();
  }

  private static Fact.ReadingTaken taken(Point point, double shown, Fact.Setup setup) {
    Dimension kind = point.reference().dimension();
    return new Fact.ReadingTaken(
        point.id(),
        new ReadingValue.Measured(new Quantity(shown, kind)),
        OptionalDouble.empty(),
        setup);
  }

  private static ReadingCorrection corrected(
      String step, String point, double shown, Fact.Setup setup) {
    Point at = point(step, point);
    return ReadingCorrection.of(PACK, step(step), at, taken(at, shown, setup));
  }

  private static double value(ReadingCorrection correction) {
    return ((ReadingValue.Measured) correction.value()).quantity().si();
  }

  private static Fact.Setup at(OptionalDouble celsius, Optional<InstrumentId> instrument) {
    return new Fact.Setup(Optional.empty(), instrument, false, celsius);
  }

  /**
   * Closed form: 5 V behind two resistors of 1 Mohm read 2.380952 V with 10 Mohm; and 5.1 kohm
   * below 22 kohm to 5 V, the values of USB Type-C for 1.5 A, read 0.940570 V instead of 0.940959
   * V; they are a source of 4140.22 ohm.
   */
  @Test
  void loadOfTheMeter_isTakenOff() {
    ReadingCorrection divider = corrected("voltages", "divider", 2.380952, Fact.Setup.AS_STATED);
    assertThat(value(divider)).isCloseTo(2.5, within(1e-6));
    assertThat(divider.words()).contains("the load of the meter");
    assertThat(divider.uncertainty()).isZero();
    assertThat(value(corrected("voltages", "cc", 0.940570, Fact.Setup.AS_STATED)))
        .isCloseTo(0.940959, within(1e-6));
    // of which no source resistance is stated
    ReadingCorrection rail = corrected("voltages", "rail", 4.98, Fact.Setup.AS_STATED);
    assertThat(value(rail)).isEqualTo(4.98);
    assertThat(rail.words()).isEmpty();
  }

  /**
   * IEC 60028: copper has 1.7241e-8 ohm m at 20 degrees (value from memory, recomputed), so that 10
   * mm of wire of 0.02 mm have 0.548798 ohm. Leads of 0.2 ohm add to it; half of them is not known,
   * by JCGM 100:2008, 4.3.7, as 0.1/sqrt 3 ohm.
   */
  @Test
  void leads_areTakenOffACopperWire() {
    ReadingCorrection jumper = corrected("wires", "jumper", 0.748798, Fact.Setup.AS_STATED);
    assertThat(value(jumper)).isCloseTo(0.548798, within(1e-9));
    assertThat(jumper.words()).contains("the leads");
    assertThat(jumper.uncertainty()).isCloseTo(0.0577350, within(1e-7));
  }

  /** -1.99 mV/K at 0.60 V and 300 K (closed form); 10 K that are not known count as rectangular. */
  @Test
  void temperature_isTakenOffADiode() {
    ReadingCorrection warmer =
        corrected("drops", "warm", 0.60, at(OptionalDouble.of(36.85), Optional.empty()));
    assertThat(value(warmer)).isCloseTo(0.6199, within(5e-5));
    assertThat(warmer.words()).contains("its temperature");
    assertThat(warmer.uncertainty()).isZero();
    ReadingCorrection unknown = corrected("drops", "warm", 0.60, Fact.Setup.AS_STATED);
    assertThat(value(unknown)).isEqualTo(0.60);
    assertThat(unknown.uncertainty()).isCloseTo(0.0199 / Math.sqrt(3), within(3e-5));
  }

  /**
   * 59.526 mV a decade and 17.919 mV a doubling at 300 K, times an ideality of 1.5 +- 0.5 (closed
   * form). A meter with a tenth of the current reads lower by a decade.
   */
  @Test
  void testCurrent_isTakenOffADiode() {
    OptionalDouble same = OptionalDouble.of(26.85);
    ReadingCorrection weak =
        corrected(
            "drops", "driven", 0.52, at(same, Optional.of(new InstrumentId("meter-diode-weak"))));
    assertThat(value(weak)).isCloseTo(0.52 + 1.5 * 0.059526, within(2e-6));
    assertThat(weak.words()).contains("the meter's test current");
    assertThat(weak.uncertainty()).isCloseTo(0.5 * 0.059526 / Math.sqrt(3), within(1e-6));
    ReadingCorrection unknown = corrected("drops", "driven", 0.52, at(same, Optional.empty()));
    assertThat(value(unknown)).isEqualTo(0.52);
    assertThat(unknown.uncertainty()).isCloseTo(1.5 * 0.017919 / Math.sqrt(3), within(1e-6));
  }

  /**
   * JCGM 100:2008, 4.3.7 and F.2.2.1: 0.5 % and 2 counts of 0.01 V at 5.00 V make 0.0259808 V; with
   * the resolution 0.0261406 V (values from memory, recomputed).
   */
  @Test
  void uncertainty_isThatOfTheInstrument() {
    Point rail = point("voltages", "rail");
    ReadingUncertainty u =
        ReadingUncertainty.of(
            PACK, step("voltages"), rail, taken(rail, 5.00, Fact.Setup.AS_STATED));
    assertThat(u.systematic()).isCloseTo(0.0259808, within(1e-7));
    assertThat(u.random()).isCloseTo(0.0028868, within(1e-7));
    assertThat(u.combined()).isCloseTo(0.0261406, within(1e-7));
    assertThat(ReadingUncertainty.expected(PACK, step("voltages"), rail)).isEqualTo(u);
  }
}
