package org.faultwright.oracle;

import java.util.List;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.Step;

/** Likelihoods of readings by the reading model of the measurement package. */
public record ModelledReadings(Pack pack) implements ReadingLikelihood {

  @Override
  public double[] of(Point point, List<Fact.ReadingTaken> readings) {
    ReadingModel model =
        ReadingModel.of(
            point.reference(),
            point.states().stream()
                .map(s -> new ReadingModel.StateRange(s.id().value(), s.lies()))
                .toList());
    List<ReadingUncertainty> u =
        readings.stream().map(r -> ReadingUncertainty.of(pack, stepOf(point), point, r)).toList();
    double systematic = u.stream().mapToDouble(ReadingUncertainty::systematic).max().orElseThrow();
    double variance = u.stream().mapToDouble(x -> x.random() * x.random()).average().orElseThrow();
    List<ReadingValue> values = readings.stream().map(Fact.ReadingTaken::value).toList();
    return model.likelihood(values, systematic, Math.sqrt(variance));
  }

  private Step stepOf(Point point) {
    return pack.steps().values().stream()
        .filter(s -> s.pinTable().filter(t -> t.points().contains(point)).isPresent())
        .findFirst()
        .orElseThrow();
  }
}
