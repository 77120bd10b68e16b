package org.faultwright.measurement.knowngood;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.faultwright.measurement.Dimension;
import org.faultwright.measurement.Quantity;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.measurement.Reference;
import org.junit.jupiter.api.Test;

/**
 * JCGM 100:2008, H.2, five sets of a voltage and a current (values from memory, recomputed). The
 * example goes on to what follows from both together; readings here are not combined so.
 */
class RepeatedReadingsReference {

  private static final double[] VOLTS = {5.007, 4.994, 5.005, 4.990, 4.999};
  private static final double[] AMPERES = {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3};

  @Test
  void voltage_hasThePrintedMeanAndItsUncertainty() {
    List<ReadingValue> values = values(VOLTS, Dimension.VOLTAGE);
    ReadingModel.Taken taken = taken(values, new Reference.Around(Dimension.VOLTAGE, 5, 0.1));
    PinReference reference = reference(values, 0.001);
    assertThat(taken.mean()).isCloseTo(4.9990, within(1e-9));
    assertThat(reference.mean().orElseThrow()).isCloseTo(4.9990, within(1e-9));
    assertThat(taken.ofMean(reference.deviation().orElseThrow()))
        .isCloseTo(0.0032094, within(5e-8));
  }

  @Test
  void current_hasThePrintedMeanAndItsUncertainty() {
    List<ReadingValue> values = values(AMPERES, Dimension.CURRENT);
    ReadingModel.Taken taken = taken(values, new Reference.Around(Dimension.CURRENT, 0.02, 1e-3));
    PinReference reference = reference(values, 1e-6);
    assertThat(taken.mean()).isCloseTo(19.6610e-3, within(1e-12));
    assertThat(reference.mean().orElseThrow()).isCloseTo(19.6610e-3, within(1e-12));
    assertThat(taken.ofMean(reference.deviation().orElseThrow()))
        .isCloseTo(0.0094710e-3, within(5e-11));
  }

  private static List<ReadingValue> values(double[] si, Dimension dimension) {
    List<ReadingValue> values = new ArrayList<>();
    for (double value : si) {
      values.add(new ReadingValue.Measured(new Quantity(value, dimension)));
    }
    return values;
  }

  private static ReadingModel.Taken taken(List<ReadingValue> values, Reference normal) {
    return ReadingModel.of(normal, List.of()).taken(values);
  }

  private static PinReference reference(List<ReadingValue> values, double step) {
    List<PinReadings.OnBoard> readings = new ArrayList<>();
    values.forEach(v -> readings.add(new PinReadings.OnBoard("b" + (readings.size() + 1), v)));
    Dimension dimension = values.get(0).kind();
    return new KnownGood(ReferencePolicy.USUAL)
        .reference(
            new PinReadings(
                "gauge", Optional.empty(), Optional.empty(), dimension, step, Side.BOTH, readings));
  }
}
