package org.faultwright.compile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.FactId;
import org.faultwright.casefile.Told;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.faultwright.pack.CauseId;
import org.faultwright.pack.Pack;
import org.faultwright.pack.PointId;
import org.faultwright.pack.reader.PackReader;
import org.faultwright.pack.reader.PackReading;
import org.faultwright.pack.yaml.YamlText;
import org.junit.jupiter.api.Test;

/** What one error for all readings of one meter does to a table. */
class SharedOffsetTest {

  private static final int PINS = 12;
  private static final CompiledPack COMPILED = (CompiledPack) CompiledPack.compile(pack());

  private static Pack pack() {
    StringBuilder causes = new StringBuilder();
    StringBuilder points = new StringBuilder();
    StringBuilder faults = new StringBuilder();
    for (int i = 0; i < PINS; i++) {
      causes.append("  fault-%d: {prior: 2 %%}\n".formatted(i));
      faults.append("fault-%d, ".formatted(i));
      points.append(
          "      pin-%d: {reference: 0.6 V, tolerance: 4 %%, low: [fault-%d]}\n".formatted(i, i));
    }
    String text =
        "pack: plover-player/table\nversion: 1.0.0\nformat: 1\ntitle: Table (invented)\nbasis: invented\n"
            + "instruments: {meter: {accuracy: {of-reading: 3 %, counts: 0, count: 0.001 V}}}\n"
            + "complaints: {silent: {event: lost}}\ncauses:\n  unlisted: {prior: 1 %}\n"
            + causes
            + "events: {lost: {any: ["
            + faults
            + "unlisted]}}\nsteps:\n  plays: {minutes: 1, proves: {complaint: silent, catches: 99 %,"
            + " cries-wolf: 1 %}}\n  table:\n    minutes: 5\n    instrument: meter\n    points:\n"
            + points;
    return ((PackReading.Readable) new PackReader().read(YamlText.of("pack.yaml", text))).pack();
  }

  private static Belief belief(double[] volts, double... knownGood) {
    List<Told> told = new ArrayList<>();
    for (int i = 0; i < volts.length + knownGood.length; i++) {
      boolean good = i >= volts.length;
      told.add(
          new Told(
              new FactId(i + 1),
              Optional.empty(),
              new Fact.ReadingTaken(
                  new PointId("pin-" + (good ? i - volts.length : i)),
                  new ReadingValue.Measured(
                      new Quantity(
                          good ? knownGood[i - volts.length] : volts[i], Dimension.VOLTAGE)),
                  OptionalDouble.empty(),
                  new Fact.Setup(
                      Optional.empty(), Optional.empty(), good, OptionalDouble.empty()))));
    }
    return (Belief) COMPILED.belief(told);
  }

  private static double[] all(double volts) {
    double[] all = new double[PINS];
    java.util.Arrays.fill(all, volts);
    return all;
  }

  @Test
  void pinsThatAreLowAlike_pointToTheMeter_andOneLowPinToItsFault() {
    Belief alike = belief(all(0.57)); // 5 % low, a little beyond the tolerance of 4 %
    double[] one = all(0.6);
    one[3] = 0.57;
    Belief single = belief(one);
    double pAlike = alike.p(new CauseId("fault-3"));
    double pSingle = single.p(new CauseId("fault-3"));
    assertThat(pAlike).isLessThan(0.03); // hardly more than before anything was read
    assertThat(pSingle).isGreaterThan(5 * pAlike);
    SharedOffset offset = alike.sharedOffsets().get(0);
    assertThat(offset.points()).isEqualTo(PINS);
    assertThat(offset.mean()).isLessThan(-2);
    assertThat(single.sharedOffsets().get(0).mean()).isBetween(-1.0, 0.5);
  }

  /** The comparison is sharper than the reading: the meter's error is in both. */
  @Test
  void knownGoodBoard_takesTheMetersErrorOff() {
    double alone = belief(new double[] {0.57}).p(new CauseId("fault-0"));
    double bothLow = belief(new double[] {0.57}, 0.57, 0.57, 0.57).p(new CauseId("fault-0"));
    double goodIsRight = belief(new double[] {0.57}, 0.6, 0.6, 0.6).p(new CauseId("fault-0"));
    assertThat(bothLow).isLessThan(alone);
    assertThat(goodIsRight).isGreaterThan(alone);
  }

  /** The order in which pins are told changes nothing. */
  @Test
  void order_doesNotMatter() {
    double[] volts = all(0.59);
    volts[0] = 0.5;
    double[] swapped = volts.clone();
    swapped[0] = volts[5];
    swapped[5] = volts[0];
    assertThat(belief(volts).p(new CauseId("fault-0")))
        .isCloseTo(belief(swapped).p(new CauseId("fault-5")), within(1e-12));
  }

  /** However often it is read with one meter, the meter's own error stays (closed form). */
  @Test
  void repeats_neverShrinkPastTheSharedError() {
    ReadingModel model =
        ReadingModel.of(
            new Reference.Around(Dimension.VOLTAGE, 0.6, 0.024),
            List.of(new ReadingModel.StateRange("low", Optional.empty())));
    ReadingModel.Taken often = new ReadingModel.Taken(0.57, 1_000_000, 0);
    double[] many = model.likelihood(often, 0, Math.hypot(0.01, often.ofMean(0.01)));
    double[] limit = model.likelihood(new ReadingModel.Taken(0.57, 1, 0), 0, 0.01);
    assertThat(many[0] / many[1]).isCloseTo(limit[0] / limit[1], within(1e-5));
  }
}
