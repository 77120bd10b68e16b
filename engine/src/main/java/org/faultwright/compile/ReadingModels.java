package org.faultwright.compile;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.faultwright.casefile.Fact;
import org.faultwright.casefile.ReadingUncertainty;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.measurement.ReadingValue;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;

/** The reading models of a pack's points. Thread-safe. */
final class ReadingModels {

  private final Pack pack;
  private final Map<PointId, ReadingModel> models = new ConcurrentHashMap<>();

  ReadingModels(Pack pack) {
    this.pack = pack;
  }

  static ReadingModel model(Point point) {
    return ReadingModel.of(
        point.reference(),
        point.states().stream()
            .map(s -> new ReadingModel.StateRange(s.id().value(), s.lies()))
            .toList());
  }

  ReadingModel of(Point point) {
    return models.computeIfAbsent(point.id(), id -> model(point));
  }

  /** P(readings | state), normal first, for readings of one point in one epoch. */
  double[] likelihood(Step step, Point point, List<Fact.ReadingTaken> readings) {
    double systematic = 0;
    double random = 0;
    for (Fact.ReadingTaken r : readings) {
      ReadingUncertainty u = ReadingUncertainty.of(pack, step, point, r);
      systematic = Math.max(systematic, u.systematic());
      random += u.random() * u.random() / readings.size();
    }
    List<ReadingValue> values = readings.stream().map(Fact.ReadingTaken::value).toList();
    return of(point).likelihood(values, systematic, Math.sqrt(random));
  }
}
