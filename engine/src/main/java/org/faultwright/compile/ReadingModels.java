package org.faultwright.compile;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.ReadingModel;
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

  /** Readings of one point in one epoch, in any order, at least one. */
  PointReadings of(Step step, Point point, List<Fact.ReadingTaken> readings) {
    return PointReadings.of(pack, step, point, of(point), readings);
  }
}
