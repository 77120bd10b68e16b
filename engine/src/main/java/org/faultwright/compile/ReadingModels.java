package org.faultwright.compile;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.faultwright.casefile.Fact;
import org.faultwright.measurement.PairModel;
import org.faultwright.measurement.ReadingModel;
import org.faultwright.pack.Comparison;
import org.faultwright.pack.Pack;
import org.faultwright.pack.Point;
import org.faultwright.pack.PointId;
import org.faultwright.pack.Step;

/** The reading models of a pack's points. Thread-safe. */
final class ReadingModels {

  private final Pack pack;
  private final Map<PointId, ReadingModel> models = new ConcurrentHashMap<>();
  private final Map<Comparison, Optional<PairModel>> pairs = new ConcurrentHashMap<>();

  ReadingModels(Pack pack) {
    this.pack = pack;
  }

  /** The model of two points that are compared; empty where they cannot be. */
  Optional<PairModel> of(Comparison compares) {
    return pairs.computeIfAbsent(compares, this::pair);
  }

  private Optional<PairModel> pair(Comparison compares) {
    Optional<Point> first = pack.point(compares.point());
    Optional<Point> second = pack.point(compares.with());
    return first.isPresent() && second.isPresent()
        ? compares.model(first.get(), of(first.get()), second.get(), of(second.get()))
        : Optional.empty();
  }

  ReadingModel of(Point point) {
    return models.computeIfAbsent(point.id(), id -> point.readingModel());
  }

  /** Readings of one point in one epoch, in any order, at least one. */
  PointReadings of(Step step, Point point, List<Fact.ReadingTaken> readings) {
    return PointReadings.of(pack, step, point, of(point), readings);
  }
}
